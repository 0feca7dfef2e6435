package main

import (
	"fmt"
	"runtime/debug"
)

// version is the build's stamp: the module's version, or the commit it was
// built from, as the Go toolchain wrote it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	commit, dirty := "", ""
	for _, s := range info.Settings {
		switch {
		case s.Key == "vcs.revision" && len(s.Value) >= 12:
			commit = s.Value[:12]
		case s.Key == "vcs.modified" && s.Value == "true":
			dirty = ", with changes"
		}
	}
	if commit == "" {
		return fmt.Sprintf("%s, %s", info.Main.Version, info.GoVersion)
	}
	return fmt.Sprintf("%s, commit %s%s, %s", info.Main.Version, commit, dirty, info.GoVersion)
}
