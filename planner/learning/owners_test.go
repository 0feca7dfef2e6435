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
	"example.com/tripwear/planner/plan"
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

// drive takes an owner from reading to reading. Trips come from the list;
// a part near its limit is replaced before it is passed.
func (b *bench) drive(random *rand.Rand, occasions int, trips []string) owner {
	o := owner{truth: map[profiles.Kind][2][2]float64{}, bites: map[profiles.Kind]map[string]float64{}, off: map[profiles.Kind]float64{}}
	for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
		s := b.spreads(k)
		common := [2]float64{random.NormFloat64(), random.NormFloat64()}
		var rates [2][2]float64
		for axle := range 2 {
			for i, sd := range []float64{s.road, s.circuit} {
				rates[axle][i] = sd * (s.common*common[i] + s.own*random.NormFloat64())
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
		o.log = append(o.log, car.measure(random, o.off, odometer, date)...)
		o.log = append(o.log, car.replace(random, odometer, date)...)
	}
	return o
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

// TestOwners: over many owners with 3 to 12 readings the bands of the rates, of
// what sets corners and circuits apart and of the predictions hold what they promise, the learned rates are far better
// than the defaults after four readings, and no rate is ever negative.
func TestOwners(t *testing.T) {
	var mu sync.Mutex
	var held, all, heldApart, apart float64
	var after4, default4 []float64
	var predictions []plan.Prediction
	owners(t, manyOwners(t), 11, func(b *bench, i int, random *rand.Rand) {
		o := b.drive(random, 3+random.IntN(10), []string{"errand", "journey", "day", "weekend", "quarry"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			var foretold []plan.Prediction
			if i%5 == 0 { // an owner in five makes some 12,000 predictions
				foretold, _ = h.backtest(l, 5)
			}
			mu.Lock()
			predictions = append(predictions, foretold...)
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				truth := o.truth[k][axle]
				for _, a := range append(corners(s, k.Info().Sets[axle].At), circuits(s, h.spread)...) {
					x, isCircuit := o.bites[k][a.Name]
					if x += truth[1]; !isCircuit {
						x = o.apart(k, axle, a.Name)
					}
					apart++
					if m := math.Exp(x); a.Low <= m && m <= a.High {
						heldApart++
					}
				}
				truth[1] += o.biting(h, l, k, axle)
				for i, m := range []plan.Multiplier{s.Learned.Road, s.Learned.Circuit} {
					if !(m.Low > 0) || math.IsInf(m.High, 0) || math.IsNaN(m.Median) {
						t.Errorf("multiplier %+v", m)
					}
					all++
					if x := math.Exp(truth[i]); m.Low <= x && x <= m.High {
						held++
					}
				}
			}
			mu.Unlock()
		}
	})
	owners(t, manyOwners(t)*2/5, 13, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 4, []string{"day", "weekend", "quarry", "errand"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			mu.Lock()
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				got, plain := b.weekendError(s, o, k, axle)
				after4, default4 = append(after4, got), append(default4, plain)
			}
			mu.Unlock()
		}
	})
	score := score(predictions)
	if share := held / all; share < 0.75 || share > 0.85 {
		t.Errorf("80 %% bands of the rates hold in %.1f %%", 100*share)
	}
	if share := heldApart / apart; share < 0.75 || share > 0.87 {
		t.Errorf("80 %% bands of corners and circuits hold in %.1f %%", 100*share)
	}
	t.Logf("80 %% bands of corners and circuits hold %.1f %% of %.0f", 100*heldApart/apart, apart)
	for _, c := range []struct{ promised, got float64 }{{0.5, score.Held50}, {0.8, score.Held80}, {0.95, score.Held95}} {
		if math.Abs(c.got-c.promised) > 0.05 {
			t.Errorf("%.0f %% bands of the predictions hold in %.1f %%", 100*c.promised, 100*c.got)
		}
	}
	better := 1 - median(after4)/median(default4)
	if better < 0.40 {
		t.Errorf("after 4 readings the median error is only %.0f %% below the defaults'", 100*better)
	}
	if score.Error > 0.8*score.DefaultError || score.ErrorWhereLines > score.LineError {
		t.Errorf("mean error %.3g m, defaults %.3g; where a line can be drawn %.3g, the line %.3g", score.Error, score.DefaultError, score.ErrorWhereLines, score.LineError)
	}
	t.Logf("rates: 80 %% bands hold %.1f %% of %.0f; predictions: 50/80/95 %% bands hold %.1f/%.1f/%.1f %% of %d, bias %.3f mm, mean error %.3f mm (defaults %.3f; on the %d with a line %.3f, the line %.3f)",
		100*held/all, all, 100*score.Held50, 100*score.Held80, 100*score.Held95, len(predictions), 1000*score.Bias, 1000*score.Error, 1000*score.DefaultError, score.Lines, 1000*score.ErrorWhereLines, 1000*score.LineError)
	t.Logf("after 4 readings: median error of a weekend's wear %.1f %%, defaults %.1f %%: %.0f %% below", 100*median(after4), 100*median(default4), 100*better)
}

// TestOwnersRoadsOnly: who never drives on a circuit learns nothing of
// circuits, exactly.
func TestOwnersRoadsOnly(t *testing.T) {
	owners(t, 10, 17, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 6, []string{"errand", "journey"})
		for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
			h, l := b.learned(t, o, k)
			for axle := range 2 {
				s := h.ratesOf(l, h.current[axle].key)
				if s.Mean[1] != 0 || math.Abs(s.SD(1)-h.spread.circuit) > 1e-9 || math.Abs(s.Root[1][0]) > 1e-9 || s.Learned.Circuit.Taught {
					t.Errorf("%s, axle %d: ln circuit %g +- %g, prior 0 +- %g, tied %g", k, axle, s.Mean[1], s.SD(1), h.spread.circuit, s.Root[1][0])
				}
				if k == profiles.Tire && !s.Learned.Road.Taught {
					t.Errorf("%s, axle %d: thousands of road miles taught nothing: %+v", k, axle, s.Learned.Road)
				}
			}
		}
	})
}

// TestOwnersOutliers: a reading that is 2 mm off is left out and said; of good
// readings next to none is.
func TestOwnersOutliers(t *testing.T) {
	var mu sync.Mutex
	found, good, falsely := 0, 0, 0
	const n = 40
	owners(t, n, 19, func(b *bench, _ int, random *rand.Rand) {
		o := b.drive(random, 6, []string{"day", "weekend", "errand"})
		var treads []int
		for i, e := range o.log {
			if e.What == logbook.Tread {
				treads = append(treads, i)
			}
		}
		_, before := b.learned(t, o, profiles.Tire)
		wrong := &o.log[treads[len(treads)/2+random.IntN(6)]]
		wrong.Value += 2e-3
		h, l := b.learned(t, o, profiles.Tire)
		mu.Lock()
		defer mu.Unlock()
		good, falsely = good+len(before.used), falsely+len(before.outliers)
		for _, i := range l.outliers {
			if r := h.readings[i]; r.level == wrong.Value && r.place == wrong.Place && r.zone == wrong.Zone {
				found++
			}
		}
	})
	t.Logf("%d of %d outliers found; %d of %d good readings left out", found, n, falsely, good)
	if found < n*9/10 || falsely*200 > good {
		t.Errorf("%d of %d outliers found; %d of %d good readings left out", found, n, falsely, good)
	}
}

// apart is what sets a wheel apart from both of its axle, ln.
func (o owner) apart(k profiles.Kind, axle int, place string) float64 {
	sum, n := 0.0, 0.0
	for p, multiple := range o.own {
		switch {
		case p.kind != k || p.axle != axle:
		case p.place == place:
			sum, n = sum+math.Log(multiple)/2, n+0.5
		case p.place != place:
			sum, n = sum-math.Log(multiple)/2, n+0.5
		}
	}
	return sum / n
}

// biting is what sets the circuits apart that a set was read after, each as much
// as it took there, ln.
func (o owner) biting(h *history, l estimate, k profiles.Kind, axle int) float64 {
	_, form := h.onAverage(l, h.current[axle].key)
	sum := 0.0
	for _, p := range form.Powers[2:] {
		sum += p.Exponent * o.bites[k][h.past.Circuits[p.Factor-h.ofVisit(h.past.Visits)].Name]
	}
	return sum
}

// weekendError is how far off the wear of a weekend is at a point, as a share: by
// what was learned, and by the defaults.
func (b *bench) weekendError(s projection.RatePosterior, o owner, k profiles.Kind, axle int) (learned, plain float64) {
	p := where{k, axle, k.Info().Sets[axle].At[1], 0}
	zone := kind.Zones[0]
	if k == profiles.Pads {
		p.zone, zone = -1, ""
	}
	truth, real := o.truth[k][axle], 0.0
	for _, u := range b.known["weekend"].Usages {
		lost := p.of(u.Nominal())
		plain += lost
		if u.Circuit {
			real += lost * math.Exp(truth[1]+o.bites[k][u.Name]) * o.own[p]
			learned += lost * s.OnCircuit(p.place, zone, u.Name)
		} else {
			real += lost * math.Exp(truth[0]) * o.own[p]
			learned += lost * s.OnRoads(p.place, zone)
		}
	}
	return math.Abs(learned-real) / real, math.Abs(plain-real) / real
}

func median(x []float64) float64 {
	x = slices.Sorted(slices.Values(x))
	return x[len(x)/2]
}
