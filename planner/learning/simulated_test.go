package learning

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"slices"
	"strconv"
	"sync"
	"testing"
	"time"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// bench is the car and the trips that all simulated owners share; their true
// rates, their pace and their gauges differ.
type bench struct {
	folder *profiles.Folder
	m      trip.Machine
	known  map[string]trip.Stages
	start  float64 // odometer
}

// newBench is the juniper demo on new parts, with trips of several kinds.
func newBench(t testing.TB) *bench {
	f, _ := demo(t, "juniper")
	for _, part := range []string{"tires-front", "tires-rear", "pads-front", "pads-rear"} {
		fitNew(f, part)
	}
	f.Trips = map[string]profiles.Trip{
		"errand":  {ID: "errand", Legs: []profiles.Leg{road(400)}},
		"journey": {ID: "journey", Legs: []profiles.Leg{road(1400)}},
		"day":     {ID: "day", Legs: []profiles.Leg{road(120), days("heron-flats", 1, "intermediate"), road(120)}},
		"weekend": {ID: "weekend", Legs: []profiles.Leg{road(500), days("heron-flats", 2, "intermediate"), road(500)}},
		"quarry":  {ID: "quarry", Legs: []profiles.Leg{road(300), days("quarry-ridge", 1, "intermediate"), road(300)}},
	}
	b := &bench{folder: f, m: trip.NewMachine(f), known: map[string]trip.Stages{}, start: float64(f.Car.Odometer)}
	for id, outing := range f.Trips {
		way, err := trip.Itinerary(b.m, f, outing)
		if err != nil {
			t.Fatal(err)
		}
		b.known[id] = way
	}
	return b
}

// owner is one simulated owner: the truth, and the logbook that came of it.
type owner struct {
	truth map[profiles.Kind][2][2]float64      // by kind and axle: ln of the true road and circuit multiples
	bites map[profiles.Kind]map[string]float64 // by kind and circuit: ln of what sets it apart
	off   map[profiles.Kind]float64            // how far off the gauge reads
	log   []logbook.Entry
	car   *levels           // as it stands at the end
	own   map[where]float64 // a point's own multiple
}

// spreads are those of a kind's factors on this car.
func (b *bench) spreads(k profiles.Kind) spreads {
	return split(kind.Of(k).Spreads(kind.Fitted(b.folder)[k]["LF"]))
}

// drive takes an owner from reading to reading.
func (b *bench) drive(random *rand.Rand, occasions int, trips []string) owner {
	o := b.owner(random)
	b.live(&o, random, occasions, trips)
	return o
}

// owner draws one as the learner believes them to be.
func (b *bench) owner(random *rand.Rand) owner {
	o := owner{truth: map[profiles.Kind][2][2]float64{}, bites: map[profiles.Kind]map[string]float64{}, off: map[profiles.Kind]float64{}}
	for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
		s := b.spreads(k)
		common := [2]float64{random.NormFloat64(), random.NormFloat64()}
		var rates [2][2]float64
		for axle := range 2 {
			for i, sd := range []float64{s.road, s.circuit} {
				rates[axle][i] = sd * (s.common*common[i] + math.Sqrt(1-sharedVariance)*random.NormFloat64())
			}
		}
		o.truth[k] = rates
		o.bites[k] = map[string]float64{"Heron Flats": s.apart * random.NormFloat64(), "Quarry Ridge": s.bySummary * random.NormFloat64()}
		o.off[k] = gaugeOf(b.folder, k) * random.NormFloat64()
	}
	car := newLevels(b.folder, random)
	own, wheels := map[where]float64{}, map[where]float64{}
	for _, p := range car.points {
		wheel, sd := p, b.spreads(p.kind).point
		if wheel.zone = 0; p.zone < 0 {
			own[p] = math.Exp(sd * random.NormFloat64())
			continue
		}
		if p.zone == 0 {
			wheels[wheel] = math.Sqrt(wheelVariance) * random.NormFloat64()
		}
		own[p] = math.Exp(sd * (wheels[wheel] + math.Sqrt(1-wheelVariance)*random.NormFloat64()))
	}
	o.car, o.own = car, own
	return o
}

// live is an owner's logbook. Trips come from the list; a part near its limit is
// replaced before it is passed.
func (b *bench) live(o *owner, random *rand.Rand, occasions int, trips []string) {
	odometer, date := b.start, time.Date(2026, 1, 1, 0, 0, 0, 0, time.UTC)
	for range occasions {
		for range 1 + random.IntN(2) {
			id := trips[random.IntN(len(trips))]
			way := b.known[id]
			v := b.visit(random)
			for j := range way.Usages {
				odometer += way.Legs[j].Meters
				o.wear(&way.Usages[j], v)
			}
			date = date.AddDate(0, 0, 7)
			o.log = append(o.log, entry(logbook.Trip, "", "", id, 0, odometer, date))
		}
		o.log = append(o.log, o.car.measure(random, o.off, odometer, date)...)
		o.log = append(o.log, o.car.replace(random, odometer, date)...)
	}
}

// visit is what sets one visit apart: its pace, and by kind its scatter, ln.
type visit struct {
	pace    float64
	scatter map[profiles.Kind]float64
}

func (b *bench) visit(random *rand.Rand) visit {
	v := visit{random.NormFloat64(), map[profiles.Kind]float64{}}
	for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
		v.scatter[k] = distuv.StudentsT{Sigma: b.spreads(k).visit, Nu: projection.VisitFreedom, Src: random}.Rand()
	}
	return v
}

// wear takes a leg from the car by the owner's true rates.
func (o *owner) wear(u *trip.Usage, v visit) {
	for p, level := range o.car.all() {
		rates := o.truth[p.kind][p.axle]
		l := trip.Loss{p.of(&u.At[0]), p.of(&u.At[1]), p.of(&u.At[2])}
		lost := l[1] * math.Exp(rates[0])
		if u.Circuit {
			lost = at(l, v.pace) * math.Exp(rates[1]+o.bites[p.kind][u.Name]+v.scatter[p.kind])
		}
		*level -= lost * o.own[p]
	}
}

// at is the loss at a pace, in spreads from the plan's.
func at(l trip.Loss, z float64) float64 {
	if l[1] <= 0 {
		return 0
	}
	low, high := math.Log(l[0]/l[1]), math.Log(l[2]/l[1])
	return l[1] * math.Exp(z*((high-low)/2+z*(high+low)/2))
}

func entry(what logbook.What, place, zone, text string, value, odometer float64, date time.Time) logbook.Entry {
	return logbook.Entry{
		Date: date, Odometer: quantity.Length(odometer), Mark: fmt.Sprintf("%.0f km", odometer/1000),
		What: what, Place: place, Zone: zone, Text: text, Value: value,
	}
}

// where is a point that is read.
type where struct {
	kind  profiles.Kind
	axle  int
	place string
	zone  int // -1 for a pad
}

func (p where) of(w *kind.Wear) float64 {
	i := slices.Index(logbook.Wheels, p.place)
	if p.kind == profiles.Pads {
		return w.Pad[i]
	}
	return w.Tread[i][p.zone]
}

// levels are an owner's true levels.
type levels struct {
	folder *profiles.Folder
	points []where
	left   []float64
}

func newLevels(f *profiles.Folder, random *rand.Rand) *levels {
	l := &levels{folder: f}
	for axle := range 2 {
		for _, p := range profiles.Pads.Info().Sets[axle].At {
			l.points = append(l.points, where{profiles.Pads, axle, p, -1})
			for z := range 3 {
				l.points = append(l.points, where{profiles.Tire, axle, p, z})
			}
		}
	}
	l.left = make([]float64, len(l.points))
	for i := range l.points {
		l.left[i] = l.unused(l.points[i], random)
	}
	return l
}

// part is what is fitted at a point.
func (l *levels) part(p where) profiles.Part {
	part, _ := l.folder.On(p.kind, p.place)
	return part
}

// unused is the level of a new part, which is not quite the nominal one.
func (l *levels) unused(p where, random *rand.Rand) float64 {
	part, depth := l.part(p), 0.0
	if p.kind == profiles.Pads {
		depth = float64(part.Pads.NewDepth)
	} else {
		depth = float64(part.Tire.NewDepth)
	}
	return depth + newPartError*gaugeOf(l.folder, p.kind)*random.NormFloat64()
}

// all pairs the points with their levels.
func (l *levels) all() map[where]*float64 {
	out := make(map[where]*float64, len(l.points))
	for i, p := range l.points {
		out[p] = &l.left[i]
	}
	return out
}

// gaugeOf is one standard deviation of a gauge's reading.
func gaugeOf(f *profiles.Folder, k profiles.Kind) float64 {
	if k == profiles.Pads {
		return float64(f.Car.Gauge.Pad)
	}
	return float64(f.Car.Gauge.Tread)
}

func (l *levels) measure(random *rand.Rand, off map[profiles.Kind]float64, odometer float64, date time.Time) []logbook.Entry {
	var out []logbook.Entry
	for i, p := range l.points {
		what, zone := logbook.Pad, ""
		if p.kind == profiles.Tire {
			what, zone = logbook.Tread, kind.Zones[p.zone]
		}
		read := l.left[i] + off[p.kind] + gaugeOf(l.folder, p.kind)*random.NormFloat64()
		out = append(out, entry(what, p.place, zone, "", read, odometer, date))
	}
	return out
}

// replace fits new parts on an axle where a level is below 3.5 mm, more than a
// trip may take.
func (l *levels) replace(random *rand.Rand, odometer float64, date time.Time) []logbook.Entry {
	var out []logbook.Entry
	for axle, at := range []string{"front", "rear"} {
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			low := slices.ContainsFunc(l.points, func(p where) bool {
				return p.kind == k && p.axle == axle && l.left[slices.Index(l.points, p)] < 3.5e-3
			})
			if !low {
				continue
			}
			for i, p := range l.points {
				if p.kind == k && p.axle == axle {
					l.left[i] = l.unused(p, random)
					out = slices.DeleteFunc(out, func(e logbook.Entry) bool { return e.Text == l.part(p).ID })
					out = append(out, entry(logbook.Replaced, at, "", l.part(p).ID, 0, odometer, date))
				}
			}
		}
	}
	return out
}

// learned is what the program learns from an owner's logbook, by kind.
func (b *bench) learned(t testing.TB, o owner, k profiles.Kind) (*history, estimate) {
	t.Helper()
	f := *b.folder
	f.Log = o.log
	p, err := trip.NewPast(b.m, &f, b.known)
	if err != nil {
		t.Fatal(err)
	}
	h, err := newHistory(&trip.Journey{Folder: &f, On: kind.Fitted(&f), Past: p}, b.m, kind.Of(k))
	if err != nil {
		t.Fatal(err)
	}
	return h, h.learn(math.Inf(1), estimate{})
}

// owners lives many owners' lives and calls with each of them.
func owners(t *testing.T, n int, seed uint64, each func(b *bench, i int, random *rand.Rand)) {
	t.Helper()
	b := newBench(t)
	var wg sync.WaitGroup
	for part := range 2 {
		wg.Go(func() {
			for i := part; i < n; i += 2 {
				each(b, i, rand.New(rand.NewPCG(seed, uint64(i))))
			}
		})
	}
	wg.Wait()
}

// manyOwners is how many owners the bench has: 160, fewer under the race
// detector; TRIPWEAR_OWNERS sets it.
func manyOwners(t *testing.T) int {
	n := usualOwners
	if s := os.Getenv("TRIPWEAR_OWNERS"); s != "" {
		var err error
		if n, err = strconv.Atoi(s); err != nil {
			t.Fatal(err)
		}
	}
	return n
}
