package line

import (
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/wearmodel/duty"
)

// Place is a place of the line that a map draws.
type Place struct {
	X, Y        float64 // m
	Right, Left float64 // m from there to the edges of the tarmac, NaN where the map does not say
}

// What a drawn line must be, and how finely it is worked on. Engineering choices.
const (
	openMost  = 0.03  // of its length, between its ends
	fewest    = 12    // points
	shortest  = 200.0 // m
	widest    = 50.0  // m of tarmac to a side; more is a field
	nodeEvery = 5.0   // m
	fineEvery = 1.0   // m
)

// Wrong is why a drawn line is no circuit.
type Wrong struct{ What, Expected, Hint string }

// Error is one line, without the hint.
func (w *Wrong) Error() string { return w.What + ", expected " + w.Expected }

// closed is the drawn line, cut back to its beginning where it runs on past it,
// with the gap that is left there.
func closed(drawn []Place) ([]Place, float64, error) {
	const same = 0.01 // m
	drawn = slices.CompactFunc(slices.Clone(drawn), func(a, b Place) bool { return apart(a, b) < same })
	if len(drawn) < fewest {
		return nil, 0, &Wrong{
			fmt.Sprintf("the line has %d points", len(drawn)), fmt.Sprintf("%d at least, one about every 10 m in corners", fewest),
			"draw it with more points; if it is a recording, export it with its times",
		}
	}
	if wrong := astray(drawn); wrong != nil {
		return nil, 0, wrong
	}
	p := drawn
	for len(p) > len(drawn)/2 && len(p) > fewest && back(p) {
		p = p[:len(p)-1]
	}
	length := 0.0
	for i := range len(p) - 1 {
		length += apart(p[i], p[i+1])
	}
	gap, ends := apart(p[0], p[len(p)-1]), apart(drawn[0], drawn[len(drawn)-1])
	if math.Min(gap, ends) > openMost*length {
		return nil, 0, &Wrong{
			fmt.Sprintf("the line is not closed: its ends are %.0f m apart", ends),
			fmt.Sprintf("%.0f %% of its length at most", 100*openMost), "draw the whole lap, or choose another line of the map",
		}
	}
	if length += gap; !(length >= shortest && length <= duty.MaxLength) {
		return nil, 0, &Wrong{
			fmt.Sprintf("the line is %.4g m long", length), fmt.Sprintf("a lap of %g m to %g km", shortest, duty.MaxLength/1000.0),
			"check its unit: x and y are meters unless their header says ft",
		}
	}
	return p, math.Min(gap, ends), nil
}

// astray looks for a point that the line goes to and comes back from.
func astray(p []Place) *Wrong {
	const (
		far     = 10.0 // times the usual step
		leastIn = 50.0 // m
		back    = 0.2  // of the way there and back, at most, between its neighbors
	)
	steps := make([]float64, len(p)-1)
	for i := range steps {
		steps[i] = apart(p[i], p[i+1])
	}
	sorted := slices.Sorted(slices.Values(steps))
	most := math.Max(leastIn, far*sorted[len(sorted)/2])
	for i := 1; i < len(steps); i++ {
		if there := steps[i-1] + steps[i]; math.Min(steps[i-1], steps[i]) > most && apart(p[i-1], p[i+1]) < back*there {
			return &Wrong{
				fmt.Sprintf("point %d is %.0f m from the one before it, and the next is back there", i+1, steps[i-1]),
				"a line along the circuit", "remove the point",
			}
		}
	}
	return nil
}

// spur looks for a way out and back in an even line, such as a pit road: the two
// sides of any hairpin lie further apart.
func spur(p []Place) *Wrong {
	const (
		reach = 4   // places from the tip to either side, 20 m
		sides = 5.0 // m between them
	)
	n := len(p)
	for tip := range p {
		beside := 0
		for 2*beside < n && apart(p[(tip+beside)%n], p[(tip-beside+n)%n]) < sides {
			beside++
		}
		if beside > reach {
			return &Wrong{
				fmt.Sprintf("the line turns back %.0f m from its first point, and runs beside itself for %.0f m", float64(tip)*nodeEvery, float64(beside-1)*nodeEvery),
				"one lap of the circuit", "take out what is not part of the lap, such as the pit road",
			}
		}
	}
	return nil
}

// back says whether the way from the last place to the first goes backward.
func back(p []Place) bool {
	n := len(p)
	ax, ay := p[n-1].X-p[n-2].X, p[n-1].Y-p[n-2].Y
	bx, by := p[0].X-p[n-1].X, p[0].Y-p[n-1].Y
	return float64(ax*bx)+float64(ay*by) <= 0
}

func apart(a, b Place) float64 { return math.Hypot(b.X-a.X, b.Y-a.Y) }

// even is a closed line of places about nodeEvery apart.
func even(p []Place) []Place {
	n := len(p)
	at := func(i int) Place { return p[(i+n)%n] }
	step := make([]float64, n)
	for i := range p {
		step[i] = apart(p[i], at(i+1))
	}
	// A cubic between each two places, whose slope at a place is that of the
	// parabola through it and its neighbors: nothing rings where a long straight
	// ends.
	slope := func(i int, of func(Place) float64) float64 {
		i = (i + n) % n
		before, after := step[(i+n-1)%n], step[i]
		return (float64((of(at(i+1))-of(at(i)))/after*before) + float64((of(at(i))-of(at(i-1)))/before*after)) / (before + after)
	}
	x, y := func(p Place) float64 { return p.X }, func(p Place) float64 { return p.Y }
	var fine []Place
	for i := range p {
		a, b := at(i), at(i+1)
		pieces := max(1, int(math.Ceil(step[i]/fineEvery)))
		for k := range pieces {
			u := float64(k) / float64(pieces)
			cubic := func(of func(Place) float64) float64 {
				u2, u3 := float64(u*u), float64(u*u*u)
				return float64((1-float64(3*u2)+float64(2*u3))*of(a)) + float64((float64(3*u2)-float64(2*u3))*of(b)) +
					float64(step[i]*(float64((u-float64(2*u2)+u3)*slope(i, of))+float64((u3-u2)*slope(i+1, of))))
			}
			fine = append(fine, Place{cubic(x), cubic(y), mix(a.Right, b.Right, u), mix(a.Left, b.Left, u)})
		}
	}
	return spaced(fine, nodeEvery)
}

func mix(a, b, u float64) float64 { return a + float64(u*(b-a)) }

// spaced puts places evenly along a closed polyline.
func spaced(p []Place, every float64) []Place {
	gone := make([]float64, len(p)+1)
	for i := range p {
		gone[i+1] = gone[i] + apart(p[i], p[(i+1)%len(p)])
	}
	whole := gone[len(p)]
	n := max(3, int(math.Round(whole/every)))
	out := make([]Place, n)
	k := 0
	for i := range out {
		want := whole * float64(i) / float64(n)
		for k+1 < len(p) && gone[k+1] < want {
			k++
		}
		a, b := p[k], p[(k+1)%len(p)]
		u := (want - gone[k]) / math.Max(1e-9, gone[k+1]-gone[k])
		out[i] = Place{mix(a.X, b.X, u), mix(a.Y, b.Y, u), mix(a.Right, b.Right, u), mix(a.Left, b.Left, u)}
	}
	return out
}
