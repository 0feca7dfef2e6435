package randomcar

import (
	"flag"
	"os"
	"strconv"
	"testing"

	"pgregory.net/rapid"
)

// Check checks a property over random owners, always the same ones unless
// -rapid.seed says otherwise. TRIPWEAR_CASES sets how many; with -short, as the
// race detector runs, it is one.
func Check(t *testing.T, usual int, property func(*rapid.T)) {
	t.Helper()
	if testing.Short() {
		usual = 5 // of which rapid takes a fifth
	}
	n := strconv.Itoa(usual)
	if s := os.Getenv("TRIPWEAR_CASES"); s != "" {
		n = s
	}
	for name, value := range map[string]string{"rapid.checks": n, "rapid.nofailfile": "true", "rapid.seed": "14"} {
		f := flag.Lookup(name)
		was := f.Value.String()
		if name == "rapid.seed" && was != f.DefValue {
			continue
		}
		if err := flag.Set(name, value); err != nil {
			t.Fatal(err)
		}
		defer flag.Set(name, was)
	}
	rapid.Check(t, property)
}
