package main

import (
	"testing"

	"github.com/rogpeppe/go-internal/testscript"
)

// TestJudged runs cars and trips whose answers were worked out by hand first,
// from testdata/judged. There "answer" is exec for a command that answers, be
// it a yes or a no.
func TestJudged(t *testing.T) {
	p := scripts("../../testdata/judged")
	p.Cmds = map[string]func(*testscript.TestScript, bool, []string){
		"answer": func(ts *testscript.TestScript, _ bool, args []string) {
			if err := ts.Exec(args[0], args[1:]...); err != nil && ts.ReadFile("stderr") != "" {
				ts.Fatalf("%v: %s", args, ts.ReadFile("stderr"))
			}
		},
	}
	testscript.Run(t, p)
}
