package duty

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// pointMass is a car without drag, whose engine never limits it.
func pointMass(cornering, driving, braking float64) limits {
	return limits{cornering: cornering, driving: driving, braking: braking, power: math.Inf(1), rotating: 1}
}

func (t *track) driven(l limits) Duty {
	t.solve(l)
	return t.duty(l)
}

// Source: point mass, elementary mechanics: corner speed sqrt(mu g R), straight
// split where v^2 from accelerating meets v^2 from braking.
func TestOvalClosedForm(t *testing.T) {
	oval := cut([]Segment{corner(400, 180, 50), corner(400, 180, 50)})
	d := oval.driven(pointMass(G, 4, 9))
	for _, tt := range []struct {
		name           string
		got, want, tol float64
	}{
		{"corner, m/s", d.MinSpeed, 22.14345, 1e-5},
		{"top, m/s", d.TopSpeed, 52.01651, 0.05}, // the peak lies within a cell
		{"lap, s", d.Seconds, 35.76244, 1e-3},
		{"lap without states, s", oval.seconds(), 35.76244, 1e-3},
	} {
		if math.Abs(tt.got-tt.want) > tt.tol {
			t.Errorf("%s: %.5f, want %.5f +- %g", tt.name, tt.got, tt.want, tt.tol)
		}
	}
	if len(d.Brakings) != 2 {
		t.Fatalf("%d brakings, want 2", len(d.Brakings))
	}
	for _, b := range d.Brakings {
		// Within the one cell in which it begins.
		if math.Abs(b.Decel-9) > 0.05 || math.Abs(b.From-52.01651) > 0.05 || math.Abs(b.To-22.14345) > 1e-5 {
			t.Errorf("braking %+v, want 52.02 to 22.14 m/s at 9 m/s2", b)
		}
	}
}

// Source: closed form, sum of angle times root of radius; by energy, of angle
// times radius. Without drag every corner is taken at its limit.
func TestLeftShareOfFigureEight(t *testing.T) {
	eight := cut([]Segment{corner(300, 270, 90), corner(300, -270, 40)})
	for _, pace := range []float64{0.4, 0.65, 0.9, 1.05} {
		d := eight.driven(pointMass(pace*G, pace*5, pace*G))
		if got := LeftShare(d); math.Abs(got-0.6) > 1e-9 {
			t.Errorf("pace %g: left share by load %.6f, want 0.6", pace, got)
		}
		left, all := 0.0, 0.0
		for _, s := range d.States {
			e := math.Abs(s.Ay) * s.V * s.Seconds
			all += e
			if s.Ay > 0 {
				left += e
			}
		}
		if got := left / all; math.Abs(got-9.0/13) > 1e-9 {
			t.Errorf("pace %g: by energy %.6f, want 0.6923", pace, got)
		}
	}
}

// Every cell must be one that the limits allow, at the speed the sweeps saw.
func TestSolvedTrackKeepsItsLimits(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		l, err := anyVehicle(t).limits(rapid.Float64Range(0.4, 1.05).Draw(t, "pace"))
		if err != nil {
			t.Fatal(err)
		}
		if rapid.Bool().Draw(t, "point mass") {
			l = pointMass(l.cornering, l.driving, l.braking)
		}
		track := cut(anyCircuit(t))
		track.solve(l)
		for _, p := range track.pieces {
			nodes := track.nodes(p)
			sharp := math.Abs(p.curvature)
			for i := range nodes[1:] {
				// Where drag slows a car in a bend held at its limit, the steps
				// ripple by as much as the drag; else rounding over a millimeter.
				slack := l.drag*nodes[i] + l.rolling + 1e-9
				a := (nodes[i+1] - nodes[i]) / (2 * p.ds)
				if a > l.speedUp(nodes[i], spare(nodes[i]*sharp/l.cornering))+slack {
					t.Fatalf("accelerates at %g m/s2 from %g m/s", a, math.Sqrt(nodes[i]))
				}
				if -a > l.slowDown(nodes[i+1], spare(nodes[i+1]*sharp/l.cornering))+slack {
					t.Fatalf("brakes at %g m/s2 to %g m/s", -a, math.Sqrt(nodes[i+1]))
				}
				if nodes[i]*sharp > l.cornering*(1+1e-12) {
					t.Fatalf("corners at %g m/s2", nodes[i]*sharp)
				}
			}
		}
		if first, last := track.u[0], track.u[len(track.u)-1]; first != last {
			t.Fatalf("the lap ends at %g and starts at %g", last, first)
		}
	})
}

func TestCutKeepsSegmentEnds(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		segs := anyCircuit(t)
		sum, next := 0.0, 0
		for _, p := range cut(segs).pieces {
			if !(p.ds > 0 && p.ds <= maxCell+1e-6) || p.first != next {
				t.Fatalf("piece %+v", p)
			}
			sum += p.ds * float64(p.cells)
			next += p.cells
		}
		if math.Abs(sum-Length(segs)) > minPiece*float64(len(segs)) {
			t.Fatalf("cells add up to %g m of %g", sum, Length(segs))
		}
	})
}
