package oil

import (
	"testing"

	"github.com/google/go-cmp/cmp"
)

// SAE J300, the 2015 table; the last two viscosities show that a range takes
// its lower end in and leaves its upper end out.
func TestGrades(t *testing.T) {
	for _, row := range []struct {
		kv100 float64
		want  []string
	}{
		{3.9, nil}, {4.0, []string{"8"}}, {6.1, []string{"12", "16"}}, {8.2, []string{"20"}}, {9.29, []string{"20"}},
		{9.3, []string{"30"}}, {12.5, []string{"40"}}, {16.3, []string{"50"}}, {21.9, []string{"60"}}, {26.1, nil},
		{5.0, []string{"8", "12"}}, {6.9, []string{"12", "16", "20"}}, {7.1, []string{"16", "20"}}, {26.09, []string{"60"}},
	} {
		if diff := cmp.Diff(row.want, Grades(row.kv100)); diff != "" {
			t.Errorf("%g mm2/s (- wanted, + got):\n%s", row.kv100, diff)
		}
	}
}

// The viscosities at 100 deg C of SAE J300, 2015 table, from memory: the least
// mm2/s of the winter grades, least and most of the others.
func TestGradeTable(t *testing.T) {
	if diff := cmp.Diff(winters, []Winter{{"0W", 3.8}, {"5W", 3.8}, {"10W", 4.1}, {"15W", 5.6}, {"20W", 5.6}, {"25W", 9.3}}); diff != "" {
		t.Error(diff)
	}
	if diff := cmp.Diff(summers, []Summer{
		{"8", 4.0, 6.1}, {"12", 5.0, 7.1}, {"16", 6.1, 8.2}, {"20", 6.9, 9.3},
		{"30", 9.3, 12.5}, {"40", 12.5, 16.3}, {"50", 16.3, 21.9}, {"60", 21.9, 26.1},
	}); diff != "" {
		t.Error(diff)
	}
}

func TestParseGrade(t *testing.T) {
	for _, s := range []string{"5W-40", " sae 5w-40 ", "SAE 30", "30", "10W"} {
		if _, ok := ParseGrade(s); !ok {
			t.Errorf("%q is not read", s)
		}
	}
	for _, s := range []string{"", "5W-", "-40", "5W-41", "6W-40", "W", "40-5W", "5W40", "SAE"} {
		if g, ok := ParseGrade(s); ok {
			t.Errorf("%q is read as %+v", s, g)
		}
	}
	g, _ := ParseGrade("5W-40")
	if g.Holds(12.4) || !g.Holds(12.5) || g.Holds(16.3) {
		t.Error("5W-40 holds 12.5 up to 16.3 mm2/s")
	}
	thin, _ := ParseGrade("25W-20") // no oil can be both
	if thin.Holds(9.0) {
		t.Error("a 25W has at least 9.3 mm2/s")
	}
	thick, _ := ParseGrade("25W-30")
	if thick.Holds(9.2) || !thick.Holds(9.3) {
		t.Error("a 25W-30 holds 9.3 mm2/s, the least of both its grades")
	}
	w, _ := ParseGrade("10W")
	if w.Holds(4.0) || !w.Holds(4.1) {
		t.Error("a 10W has at least 4.1 mm2/s")
	}
}
