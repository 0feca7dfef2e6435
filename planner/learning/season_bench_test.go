package learning

import (
	"io/fs"
	"testing"
	"testing/fstest"

	"example.com/tripwear/profiles"
)

// folder is the juniper demo's files, with more parts and a logbook.
func folder(b testing.TB, parts, log string) fstest.MapFS {
	b.Helper()
	demo, err := profiles.Demo("juniper")
	if err != nil {
		b.Fatal(err)
	}
	files := fstest.MapFS{}
	for _, name := range []string{"car.yaml", "parts.yaml", "trips/spring.yaml", "circuits/heron-flats.yaml", "circuits/quarry-ridge.yaml"} {
		text, err := fs.ReadFile(demo, name)
		if err != nil {
			b.Fatal(err)
		}
		if name == "parts.yaml" {
			text = append(text, parts...)
		}
		files[name] = &fstest.MapFile{Data: text}
	}
	if log != "" {
		files[profiles.LogFile] = &fstest.MapFile{Data: []byte(log)}
	}
	return files
}

func mustLoad(b testing.TB, files fs.FS) *profiles.Folder {
	b.Helper()
	f, err := profiles.Load(files)
	if err != nil {
		text := err.Error()
		b.Fatal(text[:min(len(text), 600)])
	}
	return f
}
