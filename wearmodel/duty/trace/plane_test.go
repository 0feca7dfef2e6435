package trace

import (
	"math"
	"testing"
)

// Source: WGS84 (NIMA TR8350.2), computed apart: 0.001 deg at 50 N is 111.229 m
// north and 71.696 m east. At the equator a degree of longitude is
// 111,319.49 m and at 45 deg a degree of latitude 111,131.78 m (published
// tables of the ellipsoid).
func TestLocalDegrees(t *testing.T) {
	p := newPlane(50, 8)
	x, y := p.xy(50.001, 8.001)
	if math.Abs(y-111.229) > 5e-4 || math.Abs(x-71.696) > 5e-4 {
		t.Errorf("0.001 deg at 50 N: %.4f m east, %.4f m north", x, y)
	}
	if got := newPlane(0, 0).east; math.Abs(got-111319.49) > 0.01 {
		t.Errorf("a degree of longitude at the equator: %.2f m", got)
	}
	if got := newPlane(45, 0).north; math.Abs(got-111131.78) > 0.5 {
		t.Errorf("a degree of latitude at 45 deg: %.2f m", got)
	}
	if x, _ := newPlane(10, 179.9995).xy(10, -179.9995); math.Abs(x-109.639) > 0.01 {
		t.Errorf("across the date line: %.3f m east, want 0.001 deg", x)
	}
}
