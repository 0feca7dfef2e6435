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

// The whole of SAE J300, 2015 table, from memory: cranking and pumping
// viscosities of the winter grades in mPa s at their temperatures, least and
// most mm2/s at 100 deg C, least mPa s at 150 deg C and high shear.
func TestGradeTable(t *testing.T) {
	winter := []struct {
		name                                    string
		crank, crankAt, pump, pumpAt, kinematic float64
	}{
		{"0W", 6200, -35, 60000, -40, 3.8}, {"5W", 6600, -30, 60000, -35, 3.8}, {"10W", 7000, -25, 60000, -30, 4.1},
		{"15W", 7000, -20, 60000, -25, 5.6}, {"20W", 9500, -15, 60000, -20, 5.6}, {"25W", 13000, -10, 60000, -15, 9.3},
	}
	got := winters
	if len(got) != len(winter) {
		t.Fatalf("%d winter grades", len(got))
	}
	for i, w := range winter {
		g := got[i]
		if g.Name != w.name || g.Crank != w.crank || g.CrankAt != w.crankAt || g.Pump != w.pump || g.PumpAt != w.pumpAt || g.LeastKV != w.kinematic {
			t.Errorf("got %+v, want %+v", g, w)
		}
	}
	summer := []struct {
		name               string
		from, to, highTemp float64
	}{
		{"8", 4.0, 6.1, 1.7}, {"12", 5.0, 7.1, 2.0}, {"16", 6.1, 8.2, 2.3}, {"20", 6.9, 9.3, 2.6},
		{"30", 9.3, 12.5, 2.9}, {"40", 12.5, 16.3, 3.5}, {"50", 16.3, 21.9, 3.7}, {"60", 21.9, 26.1, 3.7},
	}
	hot := summers
	if len(hot) != len(summer) {
		t.Fatalf("%d summer grades", len(hot))
	}
	for i, s := range summer {
		if g := hot[i]; g.Name != s.name || g.From != s.from || g.To != s.to || g.HighTemp != s.highTemp {
			t.Errorf("got %+v, want %+v", g, s)
		}
	}
}

// SAE J300 asks 3.5 mPa s of a 0W-40, 5W-40 and 10W-40, and 3.7 of a 15W-40,
// 20W-40, 25W-40 and 40.
func TestHighTemp(t *testing.T) {
	for name, want := range map[string]float64{
		"5W-40": 3.5, "10W-40": 3.5, "15W-40": 3.7, "25W-40": 3.7, "40": 3.7, "5W-30": 2.9, "0W-20": 2.6, "10W": 0, "15W-50": 3.7,
	} {
		g, ok := ParseGrade(name)
		if !ok || g.HighTemp() != want {
			t.Errorf("%s: %g, %v, want %g", name, g.HighTemp(), ok, want)
		}
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
