package main

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// onRoad is a car folder on the road, a day at a time, with every character that
// its owner types counted.
type onRoad struct {
	t     *testing.T
	dir   string
	day   string
	typed int
}

// hitTheRoad is the demo's car as it leaves, with the rear tires that its plan
// wants.
func hitTheRoad(t *testing.T) *onRoad {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "car")
	do(t, "2027-05-01", 0, "new", dir, "--demo")
	t.Chdir(dir)
	r := &onRoad{t: t, dir: dir, day: "2027-05-10"}
	r.run(0, "", "log", "new", "rear", "tires", "at", "143205mi")
	r.typed = 0
	return r
}

// run types a command line, and the lines that it asks for.
func (r *onRoad) run(want int, lines string, args ...string) string {
	r.t.Helper()
	day, err := time.Parse(time.DateOnly, r.day)
	if err != nil {
		r.t.Fatal(err)
	}
	var out, errs bytes.Buffer
	env := environment{stdin: strings.NewReader(lines), stdout: &out, stderr: &errs, open: os.DirFS, now: func() time.Time { return day }}
	r.typed += len(strings.Join(append([]string{"tripwear"}, args...), " ")) + 1 + len(lines)
	if status := run(env, append(args, "--draws=500")); status != want {
		r.t.Fatalf("tripwear %s: status %d, want %d\n%s%s", strings.Join(args, " "), status, want, out.String(), errs.String())
	}
	return out.String() + errs.String()
}

// rows is the logbook's rows that play a part.
func (r *onRoad) rows() string {
	data, err := os.ReadFile("logbook.csv")
	if err != nil {
		r.t.Fatal(err)
	}
	return string(data)
}

// One day in the paddock: five readings, a finding, a correction, and the three
// questions whether the next session, the second day and the way home are on, in
// less than 80 characters.
func TestPaddockDay(t *testing.T) {
	r := hitTheRoad(t)
	for _, day := range []string{"2027-05-14", "2027-05-15"} {
		r.day = day
		r.run(0, "", "log", "done")
	}
	r.day, r.typed = "2027-05-16", 0
	// LF face, hub; RF tread, pad, face, hub; RR tread, face, hub; LR pad, face, hub;
	// then the pad that the answers made the weakest, LF.
	said := r.run(0, "\n\n5.8\n5.5\n-\n5.6\nc\nch\nt\n6.8\n\n\n6.2\n\n\n\n\n5.7\n", "log", "walk")
	if r.typed >= 80 {
		t.Errorf("%d characters typed", r.typed)
	}
	t.Logf("%d characters typed", r.typed)
	for _, row := range []string{
		"tread,RF,outside,5.8/32", "pad,RF,,5.5 mm", "taken back,,,", "pad,RF,,5.6 mm", "rotor face,RF,,checks", "hub,RF,,tight", "tread,RR,inside,6.8/32", "pad,LR,,6.2 mm", "pad,LF,,5.7 mm",
	} {
		if !strings.Contains(r.rows(), row) {
			t.Errorf("no row %q in\n%s", row, r.rows())
		}
	}
	for _, answer := range []string{"YES, GO OUT", "5 sessions to go", "Job       ", "Session   YES: it and all that are left of the day", "Wed 19    Quarry Ridge: ", "Home      YES"} {
		if !strings.Contains(said, answer) {
			t.Errorf("no %q in\n%s", answer, said)
		}
	}
	if strings.Contains(said, "5.5 mm expected") {
		t.Error("a row taken back is heard")
	}
}

// The same day with only the printed card, whose figures are typed in days later.
func TestCardTypedLater(t *testing.T) {
	r := hitTheRoad(t)
	r.run(0, "", "log", "done", "--date", "2027-05-14", "-y")
	r.day = "2027-05-19"
	r.run(0, "", "log", "done", "--date", "2027-05-15", "-y")
	r.run(0, "\n\n5.8 5.8 5.8\n5.6\nLF 5.7mm\n.\n", "log", "walk", "--date", "2027-05-16")
	for _, row := range []string{"2027-05-16,144313 mi,tread,RF,middle,5.8/32", "2027-05-16,144313 mi,pad,RF,,5.6 mm", "2027-05-16,144313 mi,pad,LF,,5.7 mm"} {
		if !strings.Contains(r.rows(), row) {
			t.Errorf("no row %q in\n%s", row, r.rows())
		}
	}
}

// What is left of a trip is compared, not the days that are over.
func TestCompareUnderWay(t *testing.T) {
	r := hitTheRoad(t)
	for _, day := range []string{"2027-05-14", "2027-05-15"} {
		r.day = day
		r.run(0, "", "log", "done")
	}
	if said := r.run(1, "", "today"); !strings.Contains(said, "Today, Sat May 15\n  Nothing is left to drive.") {
		t.Errorf("a day that is over, and\n%s", said)
	}
	r.run(0, "", "log", "LF", "5.8mm")
	r.run(0, "", "log", "RF", "5.6mm")
	said := r.run(0, "", "compare", "--with", "pace=novice", "--quiet")
	for _, want := range []string{"A  spring: Spring run west, what is left of it", "circuit days                      2          2        -"} {
		if !strings.Contains(said, want) {
			t.Errorf("no %q in\n%s", want, said)
		}
	}
	if said = r.run(0, "", "compare", "--with", "pace=novice", "--quiet", "--whole"); !strings.Contains(said, "circuit days                      3          3        -") {
		t.Errorf("the whole trip, and\n%s", said)
	}
}

// Short words land as the rows that log add writes, and a row taken back is
// heard no more.
func TestShortRows(t *testing.T) {
	r := hitTheRoad(t)
	r.day = "2027-05-14"
	r.run(0, "", "log", "done")
	r.run(0, "", "log", "RF", "tight", "at", "144216")
	before := r.run(0, "", "lasts")
	if !strings.Contains(before, "tight") {
		t.Errorf("the hub is not heard in\n%s", before)
	}
	r.run(0, "", "log", "undo")
	if after := r.run(0, "", "lasts"); strings.Contains(after, "tight") {
		t.Errorf("a row taken back is heard in\n%s", after)
	}
	r.run(0, "", "log", "hub", "LR", "play")
	if said := r.run(1, "", "lasts"); !strings.Contains(said, "NO, DO NOT GO OUT: LR hub bearing") {
		t.Errorf("play in a hub, and\n%s", said)
	}
	r.run(2, "", "log", "RF", "frob")
	r.run(2, "", "log", "done", "9")
}

// What cannot be read in a walk is asked again, an unlikely answer wants a !, and
// the end of the lines ends it.
func TestWalkAsksAgain(t *testing.T) {
	r := hitTheRoad(t)
	r.day = "2027-05-14"
	said := r.run(0, "-\n?\nwobbly\nsm\n\n9.9\n7.9\n7.9!\nLR play\n-\n", "log", "walk")
	for _, answer := range []string{"nothing to take back", "by eye, a word or its first letters", "is none of them", "LF rotor face smooth", "more than new", "grows to", "with a ! after it", "RF tread outside 7.9/32 in", "LR hub play", "taken back"} {
		if !strings.Contains(said, answer) {
			t.Errorf("no %q in\n%s", answer, said)
		}
	}
}
