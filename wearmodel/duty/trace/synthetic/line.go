package synthetic

import (
	"math"

	"gonum.org/v1/gonum/interp"

	"example.com/tripwear/wearmodel/duty"
)

// Along is a closed line through points, x and y in m in driving order, as arcs
// of about a meter: cubic splines, which run some way round again at either end
// so that they forget how they begin.
func Along(x, y []float64) ([]duty.Segment, error) {
	const again = 20
	n := len(x)
	var along, xs, ys []float64
	for i := -again; i <= n+again; i++ {
		k := (i + n) % n
		if len(xs) == 0 {
			along = append(along, 0)
		} else {
			last := len(xs) - 1
			along = append(along, along[last]+math.Hypot(x[k]-xs[last], y[k]-ys[last]))
		}
		xs, ys = append(xs, x[k]), append(ys, y[k])
	}
	var cx, cy interp.NaturalCubic
	if err := cx.Fit(along, xs); err != nil {
		return nil, err
	}
	if err := cy.Fit(along, ys); err != nil {
		return nil, err
	}
	begin, lap := along[again], along[again+n]-along[again]
	cells := int(math.Ceil(lap))
	step := lap / float64(cells)
	heading := func(s float64) float64 { return math.Atan2(cy.PredictDerivative(s), cx.PredictDerivative(s)) }
	out := make([]duty.Segment, 0, cells)
	before := heading(begin)
	for i := range cells {
		s := begin + float64(step*float64(i))
		after := heading(s + step)
		turn := math.Remainder(after-before, 2*math.Pi)
		before = after
		middle := s + float64(step/2)
		length := step * math.Hypot(cx.PredictDerivative(middle), cy.PredictDerivative(middle))
		const straight = 1e-5 // 1/m
		if math.Abs(turn) < straight*length {
			out = append(out, duty.Segment{Straight: length})
			continue
		}
		out = append(out, duty.Segment{Turn: turn, Radius: length / math.Abs(turn)})
	}
	return out, nil
}

// Ramped is a closed lap as a car drives it, in arcs of about 5 m: no one turns
// the wheel at once, so that a corner's curvature comes and goes over so many
// meters of ramp.
func Ramped(segs []duty.Segment, ramp float64) ([]duty.Segment, error) {
	var along, heading []float64 // of three laps, whose middle one is taken
	at, to := -duty.Length(segs), -duty.Turning(segs)
	knot := func(meters, turn float64) {
		if meters > 0 || len(along) == 0 {
			at, to = at+meters, to+turn
			along, heading = append(along, at), append(heading, to)
		}
	}
	knot(0, 0)
	for range 3 {
		for _, s := range segs {
			knot(s.Straight, 0)
			knot(float64(math.Abs(s.Turn)*s.Radius), s.Turn)
		}
	}
	var headings interp.PiecewiseLinear
	if err := headings.Fit(along, heading); err != nil {
		return nil, err
	}
	mean := func(s float64) (sum float64) {
		const parts = 20
		for i := range parts {
			sum += headings.Predict(s+float64(ramp*((float64(i)+0.5)/parts-0.5))) / parts
		}
		return sum
	}
	cells := math.Round(duty.Length(segs) / 5)
	step := duty.Length(segs) / cells
	out := make([]duty.Segment, int(cells))
	for i := range out {
		turn := mean(float64(step*float64(i+1))) - mean(float64(step*float64(i)))
		out[i] = duty.Segment{Straight: step}
		if math.Abs(turn) > 1e-5*step {
			out[i] = duty.Segment{Turn: turn, Radius: step / math.Abs(turn)}
		}
	}
	return out, nil
}
