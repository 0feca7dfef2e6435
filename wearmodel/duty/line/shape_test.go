package line

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"

	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/duty/realcircuits"
)

// drawn walks a corner list in steps of about a meter and a half.
func drawn(segs []duty.Segment, side float64) []Place {
	var out []Place
	var x, y, heading float64
	walk := func(length, k float64) {
		n := int(math.Ceil(length / 1.5))
		for range n {
			out = append(out, Place{x, y, side, side})
			step := length / float64(n)
			heading += k * step / 2
			x, y = x+step*math.Cos(heading), y+step*math.Sin(heading)
			heading += k * step / 2
		}
	}
	for _, s := range segs {
		if s.Straight > 0 {
			walk(s.Straight, 0)
		}
		if s.Turn != 0 {
			walk(math.Abs(s.Turn)*s.Radius, math.Copysign(1/s.Radius, s.Turn))
		}
	}
	return out
}

// square is a circuit of four right angles to the left.
func square(straight, radius float64) []duty.Segment {
	one := duty.Segment{Straight: straight, Turn: math.Pi / 2, Radius: radius}
	return []duty.Segment{one, one, one, one}
}

// tightest is the largest curvature of a corner list.
func tightest(segs []duty.Segment) float64 {
	most := 0.0
	for _, s := range segs {
		if s.Turn != 0 {
			most = math.Max(most, 1/s.Radius)
		}
	}
	return most
}

// Through a right angle between straights the widest arc from edge to edge, by
// plane geometry, has the radius of the middle plus (3 + 2 root 2) times the
// room to a side. A line whose curvature varies is a little sharper there.
func TestRightAngle(t *testing.T) {
	const radius, side = 30, 6.0
	lap, err := Drive(drawn(square(300, radius), side))
	if err != nil {
		t.Fatal(err)
	}
	arc := radius + (3+2*math.Sqrt2)*(side-carHalf)
	if got := 1 / tightest(lap.Segments); got > arc || got < 0.7*arc {
		t.Errorf("radius %.1f m, the widest arc has %.1f", got, arc)
	}
}

// What is left of a width is kept between the line and the edges.
func TestEdges(t *testing.T) {
	for _, c := range realCircuits(t)[:3] {
		p := newPath(even(c.middle))
		for range rounds {
			p = p.straightened()
		}
		middle := spaced(even(c.middle), 0.5)
		for _, at := range p.places {
			nearest, by := math.Inf(1), middle[0]
			for _, m := range middle {
				if d := apart(m, at); d < nearest {
					nearest, by = d, m
				}
			}
			if most := math.Max(by.Left, by.Right) - carHalf; nearest > most+0.3 {
				t.Fatalf("%s: the line is %.1f m from the middle, with room for %.1f", c.Name, nearest, most)
			}
		}
	}
}

// A mirrored map is the mirrored lap, and the lap the other way round takes as long.
func TestMirrorAndReverse(t *testing.T) {
	c := realCircuits(t)[7]
	lap := func(change func([]Place)) duty.Duty {
		p := append([]Place(nil), c.middle...)
		change(p)
		l, err := Drive(p)
		if err != nil {
			t.Fatal(err)
		}
		d, err := duty.Simulate(realcircuits.Car, l.Segments, realcircuits.Pace)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	as := lap(func([]Place) {})
	mirrored := lap(func(p []Place) {
		for i := range p {
			p[i].X, p[i].Right, p[i].Left = -p[i].X, p[i].Left, p[i].Right
		}
	})
	back := lap(func(p []Place) {
		slices.Reverse(p)
		for i := range p {
			p[i].Right, p[i].Left = p[i].Left, p[i].Right
		}
	})
	if math.Abs(mirrored.Seconds/as.Seconds-1) > 1e-6 || math.Abs(duty.LeftShare(mirrored)+duty.LeftShare(as)-1) > 1e-6 {
		t.Errorf("mirrored: %.6f s, share %.6f; as it is %.6f s, %.6f", mirrored.Seconds, duty.LeftShare(mirrored), as.Seconds, duty.LeftShare(as))
	}
	if math.Abs(back.Seconds/as.Seconds-1) > 0.02 || math.Abs(duty.LeftShare(back)+duty.LeftShare(as)-1) > 0.01 {
		t.Errorf("backward: %.3f s, share %.4f; as it is %.3f s, %.4f", back.Seconds, duty.LeftShare(back), as.Seconds, duty.LeftShare(as))
	}
}

// Where a map's line ends does not matter: with the first point repeated, with
// a gap, or run on past the start, the lap is the same.
func TestEnds(t *testing.T) {
	whole := drawn(square(300, 40), 5)
	want, err := Drive(whole)
	if err != nil {
		t.Fatal(err)
	}
	for name, p := range map[string][]Place{
		"repeated":                      append(slices.Clone(whole), whole[0]),
		"open":                          whole[:len(whole)-len(whole)/50],
		"run on":                        append(slices.Clone(whole), whole[:60]...),
		"run on, beside the first line": append(slices.Clone(whole), Place{10.2, 0.4, 5, 5}, Place{40.1, -0.3, 5, 5}),
	} {
		got, err := Drive(p)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if math.Abs(got.Meters/want.Meters-1) > 0.002 || math.Abs(tightest(got.Segments)/tightest(want.Segments)-1) > 0.06 {
			t.Errorf("%s: %.1f m, radius %.1f m, not %.1f and %.1f", name, got.Meters, 1/tightest(got.Segments), want.Meters, 1/tightest(want.Segments))
		}
	}
}

// A line of few points that ends where it began is closed, however far apart the
// points are.
func TestFewPoints(t *testing.T) {
	var p []Place
	for i := range 15 {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 14)
		p = append(p, Place{300 * cos, 300 * sin, math.NaN(), math.NaN()})
	}
	if lap, err := Drive(p); err != nil || lap.Gap > 1e-9 || math.Abs(lap.Meters/(2*math.Pi*296)-1) > 0.01 {
		t.Errorf("%+v, %v", lap, err)
	}
}

// A figure of eight turns to neither side.
func TestFigureEight(t *testing.T) {
	const straight = 300
	turn := math.Pi + 2*math.Atan(2*80/float64(straight))
	lap, err := Drive(drawn([]duty.Segment{{Straight: straight, Turn: turn, Radius: 80}, {Straight: straight, Turn: -turn, Radius: 80}}, 5))
	if err != nil {
		t.Fatal(err)
	}
	if d, err := duty.Simulate(realcircuits.Car, lap.Segments, realcircuits.Pace); err != nil || math.Abs(duty.LeftShare(d)-0.5) > 0.005 || math.Abs(duty.Turning(lap.Segments)) > 0.01 {
		t.Errorf("share %.4f, turning %.4f, %v", duty.LeftShare(d), duty.Turning(lap.Segments), err)
	}
}

// A tarmac no wider than the car has one line; one whose edges the map puts on
// the wrong side still gives a lap.
func TestNarrow(t *testing.T) {
	for _, side := range []float64{0, 0.5, 1} {
		lap, err := Drive(drawn(square(300, 40), side))
		if err != nil || math.Abs(1/tightest(lap.Segments)-40) > 4 {
			t.Errorf("%g m to a side: radius %.1f m, %v", side, 1/tightest(lap.Segments), err)
		}
	}
	odd := drawn(square(300, 40), 5)
	for i := range odd {
		odd[i].Left = -8
	}
	if _, err := Drive(odd); err != nil {
		t.Error(err)
	}
}

func TestWrong(t *testing.T) {
	lap := drawn(square(300, 40), 5)
	scaled := func(by float64) []Place {
		p := slices.Clone(lap)
		for i := range p {
			p[i].X, p[i].Y = p[i].X*by, p[i].Y*by
		}
		return p
	}
	astray := slices.Clone(lap)
	astray[50].X += 400
	var pit []Place // 140 m out of the lap and back
	for d := 0.0; d < 280; d += 7 {
		at := lap[20]
		at.Y -= 140 - math.Abs(d-140)
		pit = append(pit, at)
	}
	for want, p := range map[string][]Place{
		"the line turns back 170 m from its first point, and runs beside itself for 140 m": slices.Concat(lap[:20], pit, lap[20:]),
		"point 51 is 402 m from the one before":                                            astray,
		"the line has 3 points":                                                            {lap[0], lap[300], lap[600]},
		"the line has 0 points":                                                            nil,
		"the line is not closed: its":                                                      lap[:len(lap)-len(lap)/20],
		"the line goes round 2 times":                                                      append(slices.Clone(lap), lap...),
		"the line is 145.1 m long":                                                         scaled(0.1),
		"the line is 1.451e+06 m long":                                                     scaled(1000),
	} {
		if _, err := Drive(p); err == nil || !strings.HasPrefix(err.Error(), want) {
			t.Errorf("%v, want %q", err, want)
		}
	}
}

// Whatever a map draws, there is a lap that can be driven or a reason.
func TestAnyMap(t *testing.T) {
	r := rand.New(rand.NewPCG(5, 8))
	driven := 0
	for range 120 {
		n, size, rough := 12+r.IntN(120), math.Exp(3+4*r.Float64()), math.Exp(6*r.Float64()-6)
		p := make([]Place, n)
		for i := range p {
			sin, cos := math.Sincos(2 * math.Pi * float64(i) / float64(n))
			p[i] = Place{size * (cos + rough*r.NormFloat64()), size * (sin + rough*r.NormFloat64()), 20 * r.Float64(), 20 * r.Float64()}
		}
		lap, err := Drive(p)
		if err != nil {
			continue
		}
		driven++
		if d, err := duty.Simulate(realcircuits.Car, lap.Segments, realcircuits.Pace); err != nil || !(d.Seconds > 0) || math.IsInf(d.Seconds, 0) {
			t.Fatalf("%d points over %.0f m, %.3f rough: %v, %.1f s", n, size, rough, err, d.Seconds)
		}
	}
	if driven < 40 {
		t.Errorf("%d of 120 maps were driven", driven)
	}
}
