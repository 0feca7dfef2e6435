package brake

import (
	"math"
)

// thinnest is the wear of a wheel's thinnest pad over the mean of its pads:
// the inner and the trailing end wear more. Engineering choice.
const thinnest = 1.25

// rate is the wear (m3/J) at a rotor temperature (deg C): constant while cool,
// above the threshold growing by an Arrhenius law. Engineering choice of form;
// the binder of friction material breaks down with heat.
func (p Pad) rate(temp float64) float64 {
	if temp <= p.Threshold {
		return p.Wear
	}
	return p.Wear * math.Exp(p.Activation*(1/(p.Threshold+zero)-1/(temp+zero)))
}

// TooHot says whether an outcome's session mean is above what the pad allows.
func (p Pad) TooHot(o Outcome) bool { return o.Bulk > p.MaxBulk }
