package main

import (
	"fmt"
	"runtime/debug"
	"time"
)

// version is the build's stamp: the module's version, or the commit it was
// built from, as the Go toolchain wrote it.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	commit, dirty := stamp(info, "vcs.revision"), ""
	if len(commit) < 12 {
		return fmt.Sprintf("%s, %s", info.Main.Version, info.GoVersion)
	}
	if stamp(info, "vcs.modified") == "true" {
		dirty = ", with changes"
	}
	return fmt.Sprintf("%s, commit %s%s, %s", info.Main.Version, commit[:12], dirty, info.GoVersion)
}

// commitTime is when the commit that was built was made, zero where the build
// does not say.
func commitTime() time.Time {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return time.Time{}
	}
	when, _ := time.Parse(time.RFC3339, stamp(info, "vcs.time"))
	return when
}

// stamp is one setting of the build, empty where it has none.
func stamp(info *debug.BuildInfo, key string) string {
	for _, s := range info.Settings {
		if s.Key == key {
			return s.Value
		}
	}
	return ""
}
