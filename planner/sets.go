package planner

import (
	"math"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/reliability"
)

// loss is what one leg takes from a point: at the three paces on a circuit,
// the same figure three times on the road.
type loss [3]float64

// point is a thing that wears, with what each leg takes from it.
type point struct {
	Point
	from        float64 // level the draws start from: as measured, or new where never measured
	gauge       float64 // one standard deviation of that level
	wornRoad    float64 // taken before the trip and never measured: the rates' spread applies to it
	wornCircuit float64
	legs        []loss
	cap         []float64 // level that time alone allows after each leg; nil where time does not count
}

// set is a Set under construction.
type set struct {
	Set
	points   []point
	road     float64            // spread of the road rate, sd of ln
	circuit  float64            // spread of the circuit rate
	summary  float64            // added where a circuit is known by its summary
	heard    belief             // what the logbook teaches of its rates; zero where nothing
	hub      *reliability.Scale // what is believed of hub bearings at its corner; nil where that is the prior
	fit      []string
	shelf    int
	failed   bool   // a place was found at its end: the draws of a hub's life do not count
	final    bool   // and a new part alone does not cure it
	watched  bool   // found in a state that wants watching, whatever the forecast says
	fresh    *set   // the same set with a new part, for what follows a renewal
	old      *set   // the set that a new part follows; nil for the one on the car
	noise    *noise // its draws, once drawn
	lifetime bool   // hub: ends by a drawn failure, not by reaching a level
	alone    bool   // fluid: each leg has a level of its own, nothing adds up
	age      float64
}

// builder gathers what the sets need.
type builder struct {
	folder           *profiles.Folder
	parts            map[profiles.Kind]map[string]fitting
	legs             []Leg
	usages           []usage
	depart, today    time.Time
	days             []Day
	topUp            float64 // m3 of oil to be added on the way
	perMetre, perDay wear    // highway metre and circuit day on the stock reference lap, for what was never measured
	prior            bool    // leave aside what the logbook teaches
	heard            teachings
}

// sets lists every set of the car in the order of a walk round it.
func (b *builder) sets() []*set {
	var out []*set
	for i, name := range []string{"front", "rear"} {
		out = append(out, b.tires(i, name))
	}
	for i, name := range []string{"front", "rear"} {
		out = append(out, b.pads(i, name))
	}
	for i, name := range []string{"front", "rear"} {
		out = append(out, b.rotors(i, name))
	}
	for _, p := range duty.Places {
		out = append(out, b.hub(p))
	}
	return append(out, b.oil(), b.fluid())
}

// teach puts what the logbook teaches in place of the model's own spreads.
func (s *set) teach(b *builder) {
	heard, ok := b.heard.sets[s.ID]
	if !ok {
		return
	}
	s.heard, s.Learned = heard, heard.learned
	s.road, s.circuit = heard.roadSD, heard.circuitSD
}

func (b *builder) start(id, name string, fit fitting) *set {
	s := &set{Set: Set{
		ID: id, Name: name, Kind: fit.part.Kind, Part: fit.part.ID, PartName: fit.part.Name,
		Most: -1, Critical: fit.part.Kind != profiles.Oil,
	}, fit: fit.part.Fit}
	for _, spare := range b.folder.Car.Shelf {
		if spare.Part == fit.part.ID {
			s.shelf += int(spare.Quantity)
		}
	}
	return s
}

// add appends a point and its losses, as far as the logbook has taught them.
func (s *set) add(p point, usages []usage, of func(wear) float64) {
	road, circuit := math.Exp(s.heard.road), math.Exp(s.heard.circuit)
	p.from = p.Start
	p.Start -= float64(p.wornRoad*road) + float64(p.wornCircuit*circuit)
	p.Prior, p.Gauge = [2]float64{p.wornRoad * road, p.wornCircuit * circuit}, p.gauge
	for _, u := range usages {
		taught := road
		if u.circuit {
			taught = circuit
		}
		p.legs = append(p.legs, loss{of(u.at[0]), of(u.at[1]), of(u.at[2])})
		p.Loss = append(p.Loss, taught*of(u.nominal()))
		p.Slow, p.Fast = append(p.Slow, taught*of(u.at[0])), append(p.Fast, taught*of(u.at[2]))
	}
	s.points = append(s.points, p)
}

// renewed gives the set a twin that starts as a new part.
func (s *set) renewed() *set {
	twin := *s
	twin.points = make([]point, len(s.points))
	for i, p := range s.points {
		p.Start, p.from, p.gauge, p.wornRoad, p.wornCircuit, p.cap = p.New, p.New, 0, 0, 0, nil
		twin.points[i] = p
	}
	twin.age, twin.fresh, twin.old = 0, nil, s
	s.fresh = &twin
	return s
}

// estimated says how an unmeasured start is known.
const estimated = "estimated from its miles and circuit days"

var zones = [3]string{"inside", "middle", "outside"}

func axlePlaces(i int) []duty.Place { return []duty.Place{duty.Place(2 * i), duty.Place(2*i + 1)} }

func (b *builder) tires(i int, name string) *set {
	spread := b.folder.Model.Spread
	s := b.start("tires-"+name, name+" tires", b.parts[profiles.Tire][axlePlaces(i)[0].String()])
	s.road, s.circuit, s.summary = float64(spread.TireRoad), float64(spread.TireCircuit), float64(spread.SummaryTread)
	s.teach(b)
	s.Caught = float64(b.folder.Model.Caught.Tread)
	for _, p := range axlePlaces(i) {
		fit := b.parts[profiles.Tire][p.String()]
		t := fit.part.Tire
		for z, zone := range zones {
			pt := point{Point: Point{
				Place: p.String(), Zone: zone, Measure: Tread,
				New: float64(t.NewDepth), Start: float64(t.NewDepth), Limit: float64(t.Limit), Margin: float64(t.Margin),
				Reading: float64(b.folder.Car.Gauge.Tread),
			}}
			ofZone := func(w wear) float64 { return w.tread[p][z] }
			if depths := fit.entry.Tread[p.String()]; len(depths) == 3 && !fit.entry.Seen[profiles.SeenKey(logbook.Tread, p.String(), zone)].New {
				pt.Start, pt.gauge = float64(depths[z]), float64(b.folder.Car.Gauge.Tread)
				s.Measured = "measured"
				b.since(s, &pt, fit, logbook.Tread, ofZone)
			} else {
				b.unmeasured(&pt, fit, ofZone)
				s.Measured = estimated
			}
			s.add(pt, b.usages, ofZone)
		}
	}
	return s.renewed()
}

func (b *builder) pads(i int, name string) *set {
	spread := b.folder.Model.Spread
	s := b.start("pads-"+name, name+" pads", b.parts[profiles.Pads][axlePlaces(i)[0].String()])
	s.road, s.circuit, s.summary = float64(spread.PadRoad), float64(spread.PadCircuit), float64(spread.SummaryPads)
	s.teach(b)
	s.Caught = float64(b.folder.Model.Caught.Pads)
	for _, p := range axlePlaces(i) {
		fit := b.parts[profiles.Pads][p.String()]
		pad := fit.part.Pads
		pt := point{Point: Point{
			Place: p.String(), Measure: PadLining,
			New: float64(pad.NewDepth), Start: float64(pad.NewDepth), Limit: float64(pad.Limit), Margin: float64(pad.Margin),
			Reading: float64(b.folder.Car.Gauge.Pad),
		}}
		thinnest := func(w wear) float64 { return w.pad[p][1] }
		if left, ok := fit.entry.Pad[p.String()]; ok {
			pt.Start, pt.gauge = float64(left), float64(b.folder.Car.Gauge.Pad)
			s.Measured = "measured"
			b.since(s, &pt, fit, logbook.Pad, thinnest)
		} else {
			b.unmeasured(&pt, fit, thinnest)
			s.Measured = estimated
		}
		s.add(pt, b.usages, thinnest)
	}
	return s.renewed()
}

func (b *builder) rotors(i int, name string) *set {
	spread := b.folder.Model.Spread
	s := b.start("rotors-"+name, name+" rotors", b.parts[profiles.Rotors][axlePlaces(i)[0].String()])
	s.road, s.circuit, s.summary = float64(spread.RotorThickness), float64(spread.RotorCrack), float64(spread.SummaryCrack)
	s.teach(b)
	s.Caught = float64(b.folder.Model.Caught.RotorCrack)
	for _, p := range axlePlaces(i) {
		fit := b.parts[profiles.Rotors][p.String()]
		r := fit.part.Rotors
		crack := point{Point: Point{
			Place: p.String(), Zone: "face", Measure: Crack,
			New: 1, Start: 1, Limit: 1 - float64(r.CrackLimit), Margin: 1 - float64(r.CrackMargin),
		}}
		ofCrack := func(w wear) float64 { return w.crack[p] }
		if used, ok := fit.entry.Used[p.String()]; ok {
			crack.Start = 1 - float64(used)
			s.Measured = "life used as given"
			crack.wornRoad, crack.wornCircuit = b.sinceWritten(ofCrack)
		} else {
			b.unmeasured(&crack, fit, ofCrack)
			s.Measured = estimated
		}
		s.add(crack, b.usages, ofCrack)

		thick := point{Point: Point{
			Place: p.String(), Measure: Thickness,
			New: float64(r.NewThickness), Start: float64(r.NewThickness), Limit: float64(r.Discard), Margin: float64(r.Discard),
		}}
		ofThickness := func(w wear) float64 { return w.thickness[p] }
		if left, ok := fit.entry.Thickness[p.String()]; ok {
			thick.Start = float64(left)
			s.Measured += ", thickness measured"
			b.since(s, &thick, fit, logbook.Thickness, ofThickness)
		} else {
			b.unmeasured(&thick, fit, ofThickness)
		}
		s.add(thick, b.usages, ofThickness)
	}
	return s.renewed()
}

func (b *builder) hub(p duty.Place) *set {
	fit := b.parts[profiles.Bearing][p.String()]
	s := b.start("hub-"+p.String(), p.String()+" hub bearing", fit)
	s.Caught = float64(b.folder.Model.Caught.Hub)
	s.summary = float64(b.folder.Model.Spread.SummaryHub)
	s.lifetime = true
	if scale, ok := b.heard.hubs[p.String()]; ok {
		s.hub = &scale
	}
	of := func(w wear) float64 { return w.hub[p] }
	if used, ok := fit.entry.Used[p.String()]; ok {
		road, circuit := b.sinceWritten(of)
		s.age, s.Measured = float64(used)+road+circuit, "life used as given"
	} else {
		var pt point
		b.unmeasured(&pt, fit, of)
		s.age, s.Measured = pt.wornRoad+pt.wornCircuit, estimated
	}
	s.add(point{Point: Point{Place: p.String(), Measure: HubLife, New: 1, Start: max(0, 1-s.age)}}, b.usages, of)
	return s.renewed()
}
