// Package build is what the Go toolchain wrote into the program.
package build

import (
	"runtime/debug"
	"time"
)

// Version is the build's stamp: the module's version, or the commit it was
// built from, as the Go toolchain wrote it.
func Version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return "unknown"
	}
	built := info.Main.Version
	if commit := stamp("vcs.revision"); len(commit) >= 12 {
		built += ", commit " + commit[:12]
		if stamp("vcs.modified") == "true" {
			built += ", with changes"
		}
	}
	return built + ", " + info.GoVersion
}

// CommitTime is when the commit that was built was made, zero where the build
// does not say.
func CommitTime() time.Time {
	when, _ := time.Parse(time.RFC3339, stamp("vcs.time"))
	return when
}

// stamp is one setting of the build, empty where it has none.
func stamp(key string) string {
	if info, ok := debug.ReadBuildInfo(); ok {
		for _, s := range info.Settings {
			if s.Key == key {
				return s.Value
			}
		}
	}
	return ""
}
