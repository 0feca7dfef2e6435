package tire

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// smallest is below anything that is measured: rounding near the end of
// float64's range is not an error.
const smallest = 1e-200

// near fails unless got is within a relative tolerance of want.
func near(t interface{ Errorf(string, ...any) }, what string, got, want, tol float64) {
	if math.IsNaN(got) || math.Abs(got-want) > tol*math.Abs(want)+smallest {
		t.Errorf("%s = %.6g, want %.6g within %g of it", what, got, want, tol)
	}
}

func TestGrade(t *testing.T) {
	const baseRate = 1.34 // 402/1.34 is the older rule's 300 mi a point
	for _, c := range []struct {
		source    string
		miles     float64
		p         float64
		grade     int
		tolerance float64
	}{
		{"NHTSA interpretation letter 10811: 16.67, grade 00", 5000, 16.67, 0, 3e-4},
		{"49 CFR 575.104, grades round down by 20", 59999, 199.9967, 180, 1e-6},
		{"49 CFR 575.104", 60000, 200, 200, 1e-9},
	} {
		p := Performance(c.miles*mile, baseRate)
		near(t, c.source, p, c.p, c.tolerance)
		if g := GradeOf(p); g != c.grade {
			t.Errorf("%s: grade %d, want %d", c.source, g, c.grade)
		}
	}
}

// 1000 (Yo-62)/Y + 800, 49 CFR 575.104 from memory, computed.
func TestProjected(t *testing.T) {
	const mil = inch / 1000
	d := Projected(320*mil, 5*mil/(1000*mile))
	near(t, "projected, mi", d/mile, 52400, 1e-9)
	p := Performance(d, 1.34)
	near(t, "P", p, 174.67, 1e-4)
	if g := GradeOf(p); g != 160 {
		t.Errorf("grade %d, want 160", g)
	}
}

// A grade never promises more than was found, nor 20 less.
func TestGradeRoundsDown(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := rapid.Float64Range(-50, 1000).Draw(t, "p")
		g := float64(GradeOf(p))
		if g < 0 || p >= 0 && (g > p+1e-6 || g <= p-20) {
			t.Errorf("P %v has grade %v", p, g)
		}
	})
}
