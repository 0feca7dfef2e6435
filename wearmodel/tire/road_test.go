package tire

import (
	"testing"

	"example.com/tripwear/wearmodel/duty"
)

// A car loses 110 mg/km in all, 68 mg/km per tonne: Sustainability 2024 16(2)
// 522. The two figures belong to a car of about 1.6 t.
func TestMassRate(t *testing.T) {
	v := juniper
	v.Mass = 1618
	car := each(onJuniper(), func(f *Fitted) { f.Grade, f.Toe = roadGrade, 0 })
	lost := 0.0 // kg
	for p, r := range Road(v, car, highway, 1) {
		lost += r.Mean * car[p].area() * car[p].Density
	}
	near(t, "whole car, mg/km", lost*1e6, 110, 0.005)
}

// 612 mi of highway, from an independent program.
func TestHighwayWear(t *testing.T) {
	const km = 612 * mile / 1000
	got := Road(juniper, onJuniper(), highway, 0.9)
	want := [3]float64{0.14, 0.11, 0.08} // mm, rear
	for z, w := range want {
		mm := got[duty.RR].Zones[z] * km * 1000
		if mm < w-0.005 || mm > w+0.005 {
			t.Errorf("rear %v: %.3f mm, want %v", Zone(z), mm, w)
		}
	}
}

func TestSurfaceMultiplies(t *testing.T) {
	car := each(onJuniper(), func(f *Fitted) { f.Toe = 0 })
	a, b := Road(juniper, car, highway, 0.9), Road(juniper, car, highway, 1.8)
	for p := range a {
		near(t, "twice the surface factor", b[p].Mean, 2*a[p].Mean, 1e-12)
	}
}
