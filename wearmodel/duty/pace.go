package duty

import (
	"fmt"
	"math"
)

// The range of pace in which a lap time is looked for. Engineering choice.
const (
	slowestFit = 0.40
	fastestFit = 1.05
)

// LapTimeError says that no pace gives a lap time.
type LapTimeError struct {
	LapTime          float64 // s, asked for
	Fastest, Slowest float64 // s, what the car can do
}

// Error gives the reachable lap times.
func (e *LapTimeError) Error() string {
	return fmt.Sprintf("a lap of %.4g s is out of reach: from a pace of %.2f to %.2f this car laps in %.4g to %.4g s",
		e.LapTime, slowestFit, fastestFit, e.Slowest, e.Fastest)
}

// Pace is the pace that comes nearest to the lap time.
func (e *LapTimeError) Pace() float64 {
	if e.LapTime < e.Fastest {
		return fastestFit
	}
	return slowestFit
}

// FitPace finds the pace (0.40-1.05) at which the simulated lap takes lapTime
// seconds, to 1e-9 of it. A lap time out of reach is a *LapTimeError.
func FitPace(v Vehicle, segs []Segment, lapTime float64) (float64, error) {
	if err := checkSegments(segs); err != nil {
		return 0, err
	}
	if !(lapTime > 0) || math.IsInf(lapTime, 1) {
		return 0, fmt.Errorf("a lap time of %g s is not possible", lapTime)
	}
	t := cut(segs)
	var failed error
	// miss is near a straight line in ln(pace), and falls.
	miss := func(logPace float64) float64 {
		l, err := v.limits(math.Exp(logPace))
		if err != nil {
			failed = err
			return 0
		}
		t.solve(l)
		return math.Log(t.seconds() / lapTime)
	}
	slow, fast := math.Log(slowestFit), math.Log(fastestFit)
	pace, ok := crossing(miss, slow, fast)
	if !ok && failed == nil {
		failed = &LapTimeError{LapTime: lapTime, Slowest: lapTime * math.Exp(miss(slow)), Fastest: lapTime * math.Exp(miss(fast))}
	}
	return math.Exp(pace), failed
}

// crossing finds where a falling function crosses zero between two ends, or the
// end that is nearer to it.
func crossing(f func(float64) float64, from, to float64) (at float64, found bool) {
	atFrom, atTo := f(from), f(to)
	switch {
	case atFrom < 0:
		return from, false
	case atTo > 0:
		return to, false
	}
	return root(f, from, to, atFrom, atTo), true
}

// root finds where a falling function crosses zero between a and b by false
// position with the Illinois rule (the end that stays is given half its
// weight), which keeps the bracket of a bisection and needs a quarter of its calls.
func root(f func(float64) float64, a, b, fa, fb float64) float64 {
	const (
		near  = 1e-9
		calls = 60
	)
	kept := 0
	for range calls {
		if fa-fb == 0 {
			break
		}
		x := (float64(a*fb) - float64(b*fa)) / (fb - fa)
		fx := f(x)
		switch {
		case math.Abs(fx) < near:
			return x
		case fx > 0:
			a, fa = x, fx
			if kept == 1 {
				fb /= 2
			}
			kept = 1
		default:
			b, fb = x, fx
			if kept == -1 {
				fa /= 2
			}
			kept = -1
		}
	}
	return (a + b) / 2
}
