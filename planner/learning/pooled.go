package learning

import (
	"cmp"
	"math"
	"slices"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/reliability"
)

// axles are the words for the two sets of a kind.
var axles = [2]string{"front", "rear"}

// belief is what is believed of the rates of a set's part before its own readings.
type belief struct {
	road, circuit reliability.Told
	cars          int // others whose readings say so
}

// alone is what is believed where nobody told.
func (s spreads) alone() belief {
	return belief{road: reliability.Told{SD: s.road}, circuit: reliability.Told{SD: s.circuit}}
}

// classOf is the class that a set's part wears by; "" where the owner has it wear
// otherwise.
func (h *history) classOf(key int) string {
	part := h.way.Folder.Parts[h.keys[key].part]
	for _, k := range h.kind.Rates {
		if part.Sources[k].Tag == decode.Owner {
			return ""
		}
	}
	return part.Class
}

// believed is what is believed of a set's part before its readings: the model with
// the kind's spread, or what others' readings of the class on that axle say.
func (h *history) believed(key int) belief {
	out := h.spread.alone()
	class := h.classOf(key)
	if class == "" {
		return out
	}
	var road, circuit []reliability.Told
	for _, other := range h.way.Folder.Rates {
		says := false
		for _, s := range other.Sets {
			if s.Class != class || s.Axle != axles[h.axleOf(key)] {
				continue
			}
			for _, of := range []struct {
				profiles.Rate
				to *[]reliability.Told
			}{{s.Road, &road}, {s.Circuit, &circuit}} {
				if told, ok := (reliability.Told{Mean: of.Log(), SD: float64(of.Spread)}).Alone(float64(of.Before)); ok && of.Times > 0 {
					*of.to, says = append(*of.to, told), true
				}
			}
		}
		if says {
			out.cars++
		}
	}
	for _, of := range []struct {
		others []reliability.Told
		into   *reliability.Told
	}{{road, &out.road}, {circuit, &out.circuit}} {
		if len(of.others) > 0 {
			*of.into = reliability.Another(of.others, of.into.SD)
			of.into.SD = math.Hypot(of.into.SD, h.spread.inAll.Assumed) // which is this car's alone
		}
	}
	return out
}

// parted parts the beliefs of sets into what their kind has in common, a share of
// the variance of the one that is known best, and what is each one's own.
func parted(sets []reliability.Told, share float64) (common float64, own []reliability.Told) {
	common = math.Inf(1)
	for _, s := range sets {
		common = min(common, float64(share*share)*float64(s.SD*s.SD))
	}
	for _, s := range sets {
		own = append(own, reliability.Told{Mean: s.Mean, SD: math.Sqrt(float64(s.SD*s.SD) - common)})
	}
	return math.Sqrt(common), own
}

// Share is what the logbook alone says of how fast the car's parts wear, for owners
// of other cars: those of a class on an axle that were read the most.
func (l *Evidence) Share() []profiles.SetRates {
	var out []profiles.SetRates
	for _, k := range learnedKinds() {
		h, est := l.histories[k.ID], l.estimates[k.ID]
		for key := range h.keys {
			s := h.stand(est, key)
			if s.Class = h.classOf(key); s.Class == "" || s.Readings == 0 {
				continue
			}
			s.Axle = axles[h.axleOf(key)]
			mean, cov := est.fit.Joint([]reliability.Form{{Powers: h.roadOf(key)}, {Powers: h.circuitOf(key)}})
			rate := func(i int, before float64) profiles.Rate {
				return profiles.Rate{
					Times: quantity.Number(math.Exp(mean[i])), Spread: quantity.Number(min(before, math.Sqrt(cov[i][i]))), Before: quantity.Number(before),
				}
			}
			s.Road, s.Circuit = rate(0, h.spread.road), rate(1, h.spread.circuit)
			out = append(out, s)
		}
	}
	slices.SortStableFunc(out, func(a, b profiles.SetRates) int {
		return cmp.Or(cmp.Compare(kindRank(a), kindRank(b)), cmp.Compare(a.Axle, b.Axle), cmp.Compare(a.Class, b.Class), cmp.Compare(b.Readings, a.Readings))
	})
	return slices.CompactFunc(out, func(a, b profiles.SetRates) bool { return a.Class == b.Class && a.Axle == b.Axle })
}

func kindRank(s profiles.SetRates) int {
	return slices.IndexFunc(kind.All, func(k *kind.Kind) bool { return k.ID == profiles.KindOf(s.Class) })
}

// stand is what a set's part's own rates stand on.
func (h *history) stand(l estimate, key int) (s profiles.SetRates) {
	read, visits, first, last := map[float64]bool{}, map[int]bool{}, math.Inf(1), 0.0
	for _, i := range l.used {
		r := h.readings[i]
		if r.key != key || len(r.taken) == 0 {
			continue
		}
		read[r.odometer] = true
		first, last = min(first, r.from), max(last, r.odometer)
		for _, t := range r.taken {
			if v := h.visitOf(t); v >= 0 {
				visits[v] = true
			}
		}
	}
	if s.Readings, s.Visits = len(read), len(visits); s.Readings > 0 {
		s.Distance = quantity.Length(last - first)
	}
	return s
}

// unheardCars names the files of other cars that say nothing of what is on this one.
func (l *Evidence) unheardCars() (told []string) {
	for _, other := range l.Way.Folder.Rates {
		if !slices.ContainsFunc(other.Sets, func(s profiles.SetRates) bool {
			h := l.histories[profiles.KindOf(s.Class)]
			for key := range h.keys {
				if h.classOf(key) == s.Class && axles[h.axleOf(key)] == s.Axle {
					return true
				}
			}
			return false
		}) {
			told = append(told, other.File+" tells of no class of part that this car has on the same axle")
		}
	}
	return told
}
