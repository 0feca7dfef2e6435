package tire

import (
	"math"
)

// Thresholds of a tread-temperature reading, in kelvin of difference. The
// trade has them in degrees Fahrenheit. Common practice, no source.
const (
	fahrenheit   = 1 / 1.8 // K
	probeArch    = 5 * fahrenheit
	probeCamber  = 25 * fahrenheit // inside over outside
	probeLevel   = 5 * fahrenheit  // a lean of the other sign within it is a probe's own error; engineering choice
	ProbeSpread  = 20 * fahrenheit
	probeAct     = 30 * fahrenheit
	probeArchMax = 10 * fahrenheit // above it the pressure hides the camber
)

// Probe is a tire's tread temperatures (deg C) at the inside, the middle and
// the outside, straight from the circuit.
type Probe struct{ Inside, Middle, Outside float64 }

// Concern is how urgent a reading is, from its spread.
type Concern int

// The concerns: a spread of up to 20, up to 30, and over 30 degrees Fahrenheit.
const (
	ProbeFine Concern = iota
	ProbeWatch
	ProbeAct
)

// Advice is what a reading asks to change.
type Advice int

// The advice. Pressure comes before camber: a wrong one hides the other.
const (
	Leave Advice = iota
	LessPressure
	MorePressure
	MoreCamber // more negative
	LessCamber // less negative
)

// Verdict is what a reading says.
type Verdict struct {
	Spread   float64 // K, hottest over coolest
	Arch     float64 // K, the middle over the mean of the edges
	Lean     float64 // K, inside over outside
	Concern  Concern
	Pressure Advice // Leave, LessPressure or MorePressure; comes first
	Camber   Advice // Leave, MoreCamber or LessCamber; Leave where the pressure is so far out that it hides the camber
	Vetoed   bool   // the temperatures ask for less camber, but the tread wears evenly
}

// Read reads a probe. even says that the measured depths of the three zones
// differ too little to speak of uneven wear: then a hot inside edge alone does
// not ask for less camber. Common practice, no source: at most 20 degrees
// Fahrenheit across the tread, the pressure first.
func (p Probe) Read(even bool) Verdict {
	v := Verdict{
		Spread: max(p.Inside, p.Middle, p.Outside) - min(p.Inside, p.Middle, p.Outside),
		Arch:   p.Middle - float64((p.Inside+p.Outside)/2),
		Lean:   p.Inside - p.Outside,
	}
	const rounds = 1e-9 // so that 20 degrees read in Fahrenheit stay 20
	switch {
	case v.Spread > probeAct+rounds:
		v.Concern = ProbeAct
	case v.Spread > ProbeSpread+rounds:
		v.Concern = ProbeWatch
	}
	switch {
	case v.Arch > probeArch+rounds:
		v.Pressure = LessPressure
	case v.Arch < -probeArch-rounds:
		v.Pressure = MorePressure
	}
	switch {
	case v.Obscured():
	case v.Lean < -probeLevel-rounds:
		v.Camber = MoreCamber
	case v.Lean > probeCamber+rounds && even:
		v.Vetoed = true
	case v.Lean > probeCamber+rounds:
		v.Camber = LessCamber
	}
	return v
}

// Obscured says that the pressure is so far out that the lean says nothing
// about camber.
func (v Verdict) Obscured() bool { return math.Abs(v.Arch) > probeArchMax+1e-9 }
