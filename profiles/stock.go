package profiles

import (
	"sync"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/parts"
)

// What a part is, beside the rest of what people write.
type (
	Kind     = parts.Kind
	SetRates = parts.SetRates
	Rate     = parts.Rate
	KindInfo = parts.KindInfo
	Set      = parts.Set
	Reading  = parts.Reading
	Part     = parts.Part
	Fitted   = parts.Fitted
	Seen     = parts.Seen
	Gauge    = parts.Gauge

	TirePart    = parts.TirePart
	PadsPart    = parts.PadsPart
	RotorsPart  = parts.RotorsPart
	BearingPart = parts.BearingPart
	OilPart     = parts.OilPart
	FluidPart   = parts.FluidPart
	LimitedPart = parts.LimitedPart
	Limits      = parts.Limits
	Limited     = parts.Limited
)

// The kinds with wear of their own.
const (
	Tire    = parts.Tire
	Pads    = parts.Pads
	Rotors  = parts.Rotors
	Bearing = parts.Bearing
	Oil     = parts.Oil
	Fluid   = parts.Fluid
)

// Kinds is the table of the kinds of part.
func Kinds() []KindInfo { return parts.Kinds() }

// Sets lists the sets that a car may have.
func Sets() []Set { return parts.Sets() }

// KindRead is the kind of part that a row of the logbook measures or looks at.
func KindRead(w logbook.What) (Kind, bool) { return parts.KindRead(w) }

// KindOf is the kind of a stock part.
func KindOf(class string) Kind { return parts.KindOf(class) }

// SeenKey is the key of Fitted.Seen.
func SeenKey(what logbook.What, place, zone string) string { return parts.SeenKey(what, place, zone) }

// PartFields lists the keys of a kind's parts: those of every part, then its own.
func PartFields(kind Kind) []decode.Field { p := parts.New(kind); return p.Fields() }

// wheels are the places of a car's wheels, in the order of a walk round the car.
var wheels = logbook.Wheels

type catalogue struct {
	parts     map[string]Part
	model     Model
	reference []Corner
}

// stock reads the embedded files once; an error in them is a fault of ours.
var stock = sync.OnceValues(func() (catalogue, error) {
	all, err := parts.Stock()
	if err != nil {
		return catalogue{}, err
	}
	var errs Errors
	c := catalogue{parts: all, model: Model{Sources: Sources{}}}
	parts.ReadStock("stock/model.yaml", &c.model, c.model.Sources, &errs)
	var lap struct {
		ReferenceLap []Corner
	}
	parts.ReadStock("stock/reference-lap.yaml", &lap, c.model.Sources, &errs)
	c.reference = lap.ReferenceLap
	return c, errs.Sorted()
})
