package tire

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/wearmodel/duty"
)

func TestWearProperties(t *testing.T) {
	for name, wear := range bothWays {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				d, car := drawDuty(t), drawCar(t)
				got := wear(juniper, car, d)
				for p, r := range got {
					if !finite(r) {
						t.Fatalf("%v: %v", duty.Place(p), r)
					}
					near(t, "mean of the zones", mean(r.Zones), r.Mean, 1e-12)
				}

				across := car
				for _, p := range duty.Places {
					across[p.Mirror()] = car[p]
				}
				other := wear(juniper, across, mirrored(d))
				for _, p := range duty.Places {
					if diff := cmp.Diff(got[p], other[p.Mirror()]); diff != "" {
						t.Errorf("%v in the mirror: %s", p, diff)
					}
				}

				longer := d
				longer.Meters *= 2
				longer.States = append(append([]duty.State{}, d.States...), d.States...)
				twice := wear(juniper, car, longer)
				better := wear(juniper, each(car, func(f *Fitted) { f.Grade *= 1.25 }), d)
				for p, r := range got {
					near(t, "twice the duty", twice[p].Mean, 2*r.Mean, 1e-9)
					near(t, "a quarter more grade", better[p].Mean, r.Mean/1.25, 1e-9)
				}
			})
		})
	}
}

func TestNoDutyNoWear(t *testing.T) {
	for name, wear := range bothWays {
		if diff := cmp.Diff([4]Rate{}, wear(juniper, onJuniper(), duty.Duty{})); diff != "" {
			t.Errorf("%s: %s", name, diff)
		}
	}
}

// Wear goes with mass at the same motion: both the load and the forces of a
// car without air drag are in proportion to it.
func TestWearGoesWithMass(t *testing.T) {
	for name, wear := range bothWays {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				light, d := juniper, drawDuty(t)
				light.DragArea = 0
				heavy := light
				heavy.Mass *= 1.1
				a, b := wear(light, onJuniper(), d), wear(heavy, onJuniper(), d)
				for p := range a {
					near(t, "a tenth more mass", b[p].Mean, 1.1*a[p].Mean, 1e-9)
				}
			})
		})
	}
}

// "Camber decides which zone goes first, toe decides how fast": common
// practice, no source.
func TestCamberDecidesWhich(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d, car := drawDuty(t), drawCar(t)
		more := rapid.Float64Range(0, 2).Draw(t, "more") * deg
		leaned := each(car, func(f *Fitted) { f.Camber -= more })
		for name, wear := range bothWays {
			a, b := wear(juniper, car, d), wear(juniper, leaned, d)
			for p := range a {
				if a[p].Mean != b[p].Mean {
					t.Errorf("%s: camber changed the mean from %v to %v", name, a[p].Mean, b[p].Mean)
				}
				if slack := 1e-12 * a[p].Mean; b[p].Zones[Inside] < a[p].Zones[Inside]-slack ||
					b[p].Zones[Outside] > a[p].Zones[Outside]+slack {
					t.Errorf("%s: negative camber moved wear out: %v, %v", name, a[p], b[p])
				}
			}
		}
	})
}

// The other half of the saying, and the small-slip law that the work of a toe
// angle goes with its square (Schallamach and Turner, from memory): toe
// doubled, toe's wear fourfold.
func TestToeDecidesHowFast(t *testing.T) {
	at := func(toe float64) Rate {
		car := each(onJuniper(), func(f *Fitted) { f.Toe = toe * deg })
		return Road(juniper, car, highway, 0.9)[duty.RR]
	}
	none, some, twice := at(0), at(0.3), at(0.6)
	near(t, "toe's wear doubled", twice.Mean-none.Mean, 4*(some.Mean-none.Mean), 1e-3)
	near(t, "toe-out's wear", at(-0.3).Mean, some.Mean, 1e-12)
	if first := some.Zones[Inside] / some.Mean; first-none.Zones[Inside]/none.Mean > 0 {
		t.Errorf("toe-in moved wear to the inside: %v", first)
	}
}

// Outer and inner grooves in the grading convoy differ by about 10-50 %: NHTSA
// final report 1985 on groove wear patterns. Camber of ordinary road cars,
// -0.4 to -1.2 degrees, from memory.
func TestGrooveSpread(t *testing.T) {
	for _, camber := range []float64{-0.4, -0.8, -1.2} {
		car := each(onJuniper(), func(f *Fitted) { f.Setting = Setting{Camber: camber * deg} })
		z := Road(juniper, car, highway, 1)[duty.LF].Zones
		if spread := z[Inside]/z[Outside] - 1; spread < 0.10 || spread > 0.50 {
			t.Errorf("camber %v deg: grooves differ by %.0f %%", camber, 100*spread)
		}
	}
}

// In a left turn the right-hand tires roll onto their outside shoulders, the
// left-hand ones onto their inside shoulders. Common practice, no source.
func TestCorneringTilts(t *testing.T) {
	straight := each(onJuniper(), func(f *Fitted) { f.Setting = Setting{} })
	got := Circuit(juniper, straight, cornering(25, 0.8))
	for _, p := range duty.Places {
		outer := got[p].Zones[Outside] > got[p].Zones[Inside]
		if outer == p.Left() {
			t.Errorf("%v in a left turn: %v", p, got[p].Zones)
		}
	}
}

// The work of a small toe angle on a rear wheel of 1385 kg x 9.80665 x 0.47 / 2
// = 3191.8 N: 14.324 per rad x 3191.8 N x 0.0052360 rad x sin(0.0052360) =
// 1.2534 J/m, of which 6.5e-12 m3/J over 2 pi 0.314 x 0.215 x 0.75 = 0.31813 m2
// takes 25.61 nm a kilometer. By hand.
func TestToesWork(t *testing.T) {
	at := func(toe float64) float64 {
		car := each(onJuniper(), func(f *Fitted) { f.Toe = toe * deg })
		return Road(juniper, car, highway, 0.9)[duty.RR].Mean
	}
	near(t, "toe's wear, m/km", at(0.3)-at(0), 2.561e-8, 1e-3)
}
