package learning

import (
	"fmt"
	"math"
	"math/rand/v2"
	"sync"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// club is owners who have the same parts on different cars. Its truth is not built
// as the learner believes: what a class does is uniform, cars differ by Student's t
// with three degrees of freedom in all their rates at once and evenly in each, and
// one in ten drives half as hard again.
type club struct {
	*bench
	class map[string]float64 // ln
}

func (b *bench) club(random *rand.Rand) club {
	c := club{b, map[string]float64{}}
	for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
		s := b.spreads(k)
		for axle := range 2 {
			for i, sd := range []float64{s.road, s.circuit} {
				c.class[fmt.Sprint(k, axle, i)] = sd * 1.2 * (2*random.Float64() - 1)
			}
		}
	}
	return c
}

// member draws one of the club.
func (c club) member(random *rand.Rand, occasions int) owner {
	o := c.owner(random)
	hard := 0.0
	if random.Float64() < 0.1 {
		hard = math.Log(1.5)
	}
	for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
		s, rates := c.spreads(k), [2][2]float64{}
		for i, sd := range []float64{s.road, s.circuit} {
			car := distuv.StudentsT{Sigma: 0.25 * sd, Nu: 3, Src: random}.Rand()
			for axle := range 2 {
				rates[axle][i] = c.class[fmt.Sprint(k, axle, i)] + car + 0.4*sd*(2*random.Float64()-1) + float64(i)*hard
			}
		}
		o.truth[k] = rates
	}
	c.live(&o, random, occasions, []string{"day", "weekend", "quarry", "errand"})
	return o
}

// evidence is what an owner's logbook says, of all kinds.
func (b *bench) evidence(t *testing.T, o owner) *Evidence {
	l := &Evidence{histories: map[profiles.Kind]*history{}, estimates: map[profiles.Kind]estimate{}}
	for _, k := range learnedKinds() {
		l.histories[k.ID], l.estimates[k.ID] = b.learned(t, o, k.ID)
	}
	return l
}

// told is the bench of one who was told some cars' rates.
func (b *bench) told(rates []profiles.Rates) *bench {
	out, f := *b, *b.folder
	f.Rates = rates
	out.folder = &f
	return &out
}

// forecast is how far a point's wear of a day at a circuit is from what is believed
// of it, ln, with its standard deviation.
func forecast(s projection.RatePosterior, o owner, k profiles.Kind, axle int, circuit string, p where) (off, sd float64) {
	zone := ""
	if p.zone >= 0 {
		zone = kind.Zones[p.zone]
	}
	rows := map[int]float64{1: 1, s.Points[projection.PointKey(p.place, zone)]: 1}
	i, driven := s.Circuits[circuit]
	if driven {
		rows[i] = 1
	}
	mean, sd := s.Log(rows)
	if !driven {
		sd = math.Hypot(sd, s.Apart)
	}
	return mean - o.truth[k][axle][1] - o.bites[k][circuit] - math.Log(o.own[p]), sd
}

// TestClubs: what a new member of a club of owners is told about the wear of parts
// like his is honest, helps before his first reading and after his first two, and
// the more of them the more it helps.
func TestClubs(t *testing.T) {
	sizes := []int{0, 2, 5, 10, 30}
	if testing.Short() {
		sizes = []int{0, 10}
	}
	const clubs, members = 24, 6
	type score struct{ rate, square, held, n float64 }
	var mu sync.Mutex
	scores := map[[2]int]*score{}
	owners(t, clubs, 77, func(b *bench, _ int, random *rand.Rand) {
		c := b.club(random)
		var files []profiles.Rates
		for i := range sizes[len(sizes)-1] {
			o := c.member(random, 2+random.IntN(4))
			files = append(files, profiles.Rates{Mark: fmt.Sprint(i), Sets: b.evidence(t, o).Share()})
		}
		for range members {
			for _, occasions := range []int{0, 2} {
				o := c.member(random, occasions)
				for _, size := range sizes {
					told := b.told(files[:size])
					for _, k := range []profiles.Kind{profiles.Tire, profiles.Pads} {
						h, l := told.learned(t, o, k)
						mu.Lock()
						s := scores[[2]int{size, occasions}]
						if s == nil {
							s = &score{}
							scores[[2]int{size, occasions}] = s
						}
						for axle := range 2 {
							p := where{k, axle, k.Info().Sets[axle].At[0], -1}
							if k == profiles.Tire {
								p.zone = 1
							}
							rates := h.ratesOf(l, h.current[axle].key)
							off, sd := forecast(rates, o, k, axle, "Heron Flats", p)
							rate := rates.Mean[1] - o.truth[k][axle][1]
							s.rate, s.square, s.n = s.rate+rate*rate, s.square+off*off, s.n+1
							if math.Abs(off) <= band80*sd {
								s.held++
							}
						}
						mu.Unlock()
					}
				}
			}
		}
	})
	for _, occasions := range []int{0, 2} {
		least := math.Inf(1)
		for _, size := range sizes {
			s := scores[[2]int{size, occasions}]
			rate, day, held := math.Sqrt(s.rate/s.n), math.Sqrt(s.square/s.n), s.held/s.n
			t.Logf("%d occasions of his own, %2d others: rms error, ln, of a set's rate %.3f, of a day's wear at a point %.3f; 80 %% bands hold %.1f %% of %.0f", occasions, size, rate, day, 100*held, s.n)
			if held < 0.75 || held > 0.87 {
				t.Errorf("%d occasions, %d others: 80 %% bands hold %.1f %%", occasions, size, 100*held)
			}
			if rate > least*1.02 { // what one more tells is less than the noise of so few clubs
				t.Errorf("%d occasions: an rms error of %.3f with %d others, with fewer %.3f", occasions, rate, size, least)
			}
			least = min(least, rate)
		}
		none, all := scores[[2]int{0, occasions}], scores[[2]int{sizes[len(sizes)-1], occasions}]
		if all.rate > 0.85*0.85*none.rate && occasions == 0 || all.rate > none.rate || all.square > none.square {
			t.Errorf("%d occasions: of a rate %.3f with all, %.3f with none", occasions, math.Sqrt(all.rate/all.n), math.Sqrt(none.rate/none.n))
		}
	}
}

// rated is a file that says the same of all that the bench's car has.
func rated(b *bench, mark string, times, spread float64) profiles.Rates {
	r := profiles.Rates{File: mark + ".yaml", Mark: mark}
	for _, k := range learnedKinds() {
		s := b.spreads(k.ID)
		for axle, set := range k.ID.Info().Sets {
			part, _ := b.folder.On(k.ID, set.At[0])
			of := func(before float64) profiles.Rate {
				return profiles.Rate{Times: quantity.Number(times), Spread: quantity.Number(spread * before), Before: quantity.Number(before)}
			}
			r.Sets = append(r.Sets, profiles.SetRates{Class: part.Class, Axle: axles[axle], Readings: 5, Road: of(s.road), Circuit: of(s.circuit)})
		}
	}
	return r
}

// TestOthersThatKnowNothing: a file that is as wide as what is believed anyhow
// changes nothing, not even the last digit, and is not said to have told anything.
// One that is all but as wide leaves the spread and says so.
func TestOthersThatKnowNothing(t *testing.T) {
	b := newBench(t)
	o := b.drive(rand.New(rand.NewPCG(3, 4)), 4, []string{"day", "weekend"})
	h, l := b.learned(t, o, profiles.Pads)
	for key := range h.keys {
		for spread, cars := range map[float64]int{1: 0, 0.97: 1} {
			told, est := b.told([]profiles.Rates{rated(b, "wide", 1.02, spread)}).learned(t, o, profiles.Pads)
			alone, with := h.ratesOf(l, key), told.ratesOf(est, key)
			if with.Learned.Others != cars {
				t.Errorf("%g: %d cars told", spread, with.Learned.Others)
			}
			for i := range 2 {
				off, wider := math.Abs(with.Mean[i]-alone.Mean[i]), math.Abs(with.SD(i)/alone.SD(i)-1)
				if cars == 0 && (off > 0 || wider > 0) || off > 0.02 || wider > 0.02 {
					t.Errorf("%g: row %d: %.3f +- %.3f, alone %.3f +- %.3f", spread, i, with.Mean[i], with.SD(i), alone.Mean[i], alone.SD(i))
				}
			}
		}
	}
}

// TestOthersBeforeAnyReading: a new car begins from what five told, other parts do
// not, and a wild sixth moves that by less than a fifth of what it moves their
// average by.
func TestOthersBeforeAnyReading(t *testing.T) {
	b := newBench(t)
	var files []profiles.Rates
	for i, times := range []float64{1.3, 1.5, 1.4, 1.35, 1.45} {
		files = append(files, rated(b, fmt.Sprint(i), times, 0.3))
	}
	h, l := b.told(files).learned(t, owner{}, profiles.Pads)
	five := h.ratesOf(l, 0)
	if m := five.Learned; m.Others != 5 || m.Readings != 0 || m.Borrowed || m.Circuit.Median < 1.25 || m.Circuit.Median > 1.45 || five.SD(1) > 0.75*h.spread.circuit {
		t.Errorf("%+v, sd %.3f of %.3f", m, five.SD(1), h.spread.circuit)
	}
	for _, wild := range []float64{0.1, 10} {
		h, l := b.told(append(files[:5:5], rated(b, "wild", wild, 0.1))).learned(t, owner{}, profiles.Pads)
		six := h.ratesOf(l, 0)
		if off := math.Abs(six.Mean[1] - five.Mean[1]); off > math.Abs(math.Log(wild/1.4))/6/5 || six.SD(1) < 0.9*five.SD(1) {
			t.Errorf("with one at %g: %.3f +- %.3f, without %.3f +- %.3f", wild, six.Mean[1], six.SD(1), five.Mean[1], five.SD(1))
		}
	}
	for i := range files {
		for j := range files[i].Sets {
			files[i].Sets[j].Class = "tire-500"
		}
	}
	told := b.told(files)
	e := told.evidence(t, owner{})
	e.Way = e.histories[profiles.Pads].way
	if m := e.histories[profiles.Pads].ratesOf(e.estimates[profiles.Pads], 0).Learned; m.Others != 0 {
		t.Errorf("of another class: %+v", m)
	}
	if n := len(e.unheardCars()); n != 5 {
		t.Errorf("%d of 5 files named as of no class here", n)
	}
}
