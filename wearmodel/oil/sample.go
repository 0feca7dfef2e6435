package oil

// Figure is one thing that a laboratory measures in a bottle of oil.
type Figure string

// The figures that are judged, each with its unit.
const (
	KV40       Figure = "viscosity at 40 C"  // mm2/s
	KV100      Figure = "viscosity at 100 C" // mm2/s
	BaseNumber Figure = "base number"        // mg KOH/g
	AcidNumber Figure = "acid number"        // mg KOH/g
	Fuel       Figure = "fuel"               // share by mass
	Water      Figure = "water"              // share by mass
	Glycol     Figure = "glycol"             // share by mass; any above 0 counts
	Iron       Figure = "iron"               // ppm by mass, this and the rest
	Chromium   Figure = "chromium"
	Copper     Figure = "copper"
	Tin        Figure = "tin"
	Lead       Figure = "lead"
	Aluminium  Figure = "aluminium"
	Silicon    Figure = "silicon"
)

// Figures lists them in the order of a report.
var Figures = []Figure{
	KV40, KV100, BaseNumber, AcidNumber, Fuel, Water, Glycol,
	Iron, Chromium, Copper, Tin, Lead, Aluminium, Silicon,
}

// metals are what an engine wears, with the dirt that wears it.
var metals = []Figure{Iron, Chromium, Copper, Tin, Lead, Aluminium, Silicon}

// Unit is the figure's unit as a report prints it: mm2/s, mg KOH/g, % or ppm.
func (f Figure) Unit() string {
	switch f {
	case KV40, KV100:
		return "mm2/s"
	case BaseNumber, AcidNumber:
		return "mg KOH/g"
	case Fuel, Water, Glycol:
		return "%"
	default:
		return "ppm"
	}
}

// Sample is what a laboratory found in one bottle. What it did not measure is
// not in Values.
type Sample struct {
	Values     map[Figure]float64
	Below      map[Figure]bool // the value is a bound, "below 2 %": judged as the figure itself, but no line is drawn to it
	BaseMethod string          // ASTM method of the base number, such as D2896; "" where not said
	AcidMethod string
	Equivalent float64 // m of equivalent distance on the fill; 0 for new oil
	Meters     float64 // m driven on the fill
	TopUpKnown bool    // the oil added since the fill was written down, if only as none
}

// Criteria are the limits that a report is judged by, all of them the owner's
// to change. Their usual values are in the stock profile of the model.
type Criteria struct {
	Thinner, Thicker         float64            // shares of change of the viscosity at 100 deg C against new that are flagged
	StopThinner, StopThicker float64            // and beyond which the fill is not run on
	BaseShare                float64            // least share of the new oil's base number
	BaseLeast                float64            // least base number, mg KOH/g
	Fuel, Water              float64            // most, share by mass
	Metals                   map[Figure]float64 // most in all, ppm
	Line                     float64            // share of the way to the first limit that is supported
	Turn                     float64            // share of the distance at which a trend turns that is supported
	Step                     float64            // most that one report lengthens the interval by beyond what it shows, as a factor
}
