package lists

import (
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/tire"
)

// What is tried at a time before the temperatures are read again. Common
// practice, no source.
const (
	camberStep   = 0.5 * math.Pi / 180 // rad
	pressureStep = 2 * 6894.757        // Pa
)

// evenGauges is how many spreads of the gauge the zones' depths may differ by
// and still be called even. Engineering choice.
const evenGauges = 2.0

// Probings reads every wheel that has been probed. The effect of a change of
// camber is worked out by the wear model over the trip; it has no pressure, so
// that of a change of pressure is not.
func Probings(m trip.Machine, trip profiles.Trip, w *trip.Journey) ([]plan.Probing, error) {
	f := w.Folder
	var out []plan.Probing
	changed := m
	any := false
	for _, p := range duty.Places {
		entry := w.On[profiles.Tire][p.String()].Entry
		heat, ok := entry.Probe[p.String()]
		if !ok || len(heat) != 3 {
			continue
		}
		r := probe(p.String(), heat, entry.Tread[p.String()], float64(f.Car.Gauge.Tread))
		if r.Camber != 0 {
			any = true
			changed.Tires[p].Camber += r.Camber
			r.Set = changed.Tires[p].Camber
		}
		out = append(out, r)
	}
	if len(out) == 0 {
		return nil, nil
	}
	var now, would [4][3]float64
	for i := range w.Usages {
		addTread(&now, &w.Usages[i].At[1].Tread)
	}
	if any {
		var err error
		if would, err = treadOver(changed, f, trip); err != nil {
			return nil, err
		}
	}
	for i := range out {
		r := &out[i]
		p := slices.IndexFunc(duty.Places[:], func(p duty.Place) bool { return p.String() == r.Place })
		t := w.On[profiles.Tire][r.Place].Part.Tire
		r.Loss, r.Trips = now[p], tripsOf(now[p], t)
		if r.Camber != 0 {
			r.Would, r.TripsNew = would[p], tripsOf(would[p], t)
		}
	}
	return out, nil
}

func addTread(sum, tread *[4][3]float64) {
	for p := range sum {
		for z := range sum[p] {
			sum[p][z] += tread[p][z]
		}
	}
}

// treadOver is what a trip takes from the treads, nominal, and nothing else:
// a change of camber touches no other part and no lap time.
func treadOver(m trip.Machine, f *profiles.Folder, outing profiles.Trip) (sum [4][3]float64, err error) {
	for _, leg := range outing.Legs {
		switch leg.Kind {
		case profiles.RoadLeg:
			u, _ := trip.RoadUsage(m, f.Model, leg)
			addTread(&sum, &u.At[1].Tread)
		case profiles.CircuitLeg:
			hot, slow, laps, err := trip.PlannedLaps(m, f, leg)
			if err != nil {
				return sum, err
			}
			tread := kind.CircuitTread(trip.CircuitAsk(m.OnLeg(leg, f.Model), f.Model, leg, hot, slow, laps))
			for range leg.Days {
				addTread(&sum, &tread)
			}
		}
	}
	return sum, nil
}

// tripsOf is how many trips that take so much the tread lasts from new, to
// the limit at its first zone.
func tripsOf(loss [3]float64, t *profiles.TirePart) float64 {
	trips := math.Inf(1)
	for _, l := range loss {
		if l > 0 {
			trips = math.Min(trips, float64(t.NewDepth-t.Limit)/l)
		}
	}
	return trips
}

// probe reads one wheel.
func probe(place string, heat []quantity.Temperature, depths []quantity.Length, gauge float64) plan.Probing {
	r := plan.Probing{Place: place, Wear: unevenness(depths, gauge)}
	for z := range heat {
		r.Heat[z] = float64(heat[z])
	}
	v := tire.Probe{Inside: r.Heat[0], Middle: r.Heat[1], Outside: r.Heat[2]}.Read(r.Wear == plan.Evenly)
	r.Spread = v.Spread
	concern := v.Concern
	if v.Pressure != tire.Leave { // what is to be changed is not fine
		concern = max(concern, tire.ProbeWatch)
	}
	r.Concern = [...]string{tire.ProbeFine: "fine", tire.ProbeWatch: "watch", tire.ProbeAct: "act"}[concern]
	var why []string
	switch v.Pressure {
	case tire.LessPressure:
		r.Pressure = -pressureStep
		why = append(why, "the middle runs hottest: less pressure first")
	case tire.MorePressure:
		r.Pressure = pressureStep
		why = append(why, "the middle runs coolest: more pressure first")
	}
	camber(&r, v, &why)
	if len(why) == 0 {
		why = append(why, "pressure and camber suit this circuit")
	}
	r.Why = strings.Join(why, "; ")
	return r
}

// camber checks what the temperatures say of the camber against the measured
// wear, and advises only where the two do not contradict each other.
func camber(r *plan.Probing, v tire.Verdict, why *[]string) {
	say := func(what string) { *why = append(*why, what) }
	switch {
	case v.Obscured():
		say("the pressure is so far out that the camber cannot be judged: set it and read again")
	case v.Vetoed:
		say("the inside runs hot, but the tread wears evenly: leave the camber")
	case v.Camber != tire.Leave && v.Concern == tire.ProbeFine:
		say("inside and outside differ no more than is fine: leave the camber")
	case v.Camber == tire.MoreCamber && r.Wear == plan.InsideLow:
		say("the outside runs hotter than the inside, but the tread is lowest inside: the two contradict each other, so leave the camber and read again")
	case v.Camber == tire.MoreCamber:
		r.Camber = -camberStep
		say("the outside runs hotter than the inside: more negative camber")
	case v.Camber == tire.LessCamber && r.Wear == plan.NotMeasured:
		say("the inside runs hot: measure the three zones before you change the camber")
	case v.Camber == tire.LessCamber && r.Wear == plan.OutsideLow:
		say("the inside runs hot, but the tread is lowest outside: the two contradict each other, so leave the camber and read again")
	case v.Camber == tire.LessCamber:
		r.Camber = camberStep
		say("the inside runs hot and wears first: less negative camber")
	}
}

// unevenness compares the measured depths of three zones.
func unevenness(depths []quantity.Length, gauge float64) plan.Wearing {
	if len(depths) != 3 {
		return plan.NotMeasured
	}
	least, low, high := 0, float64(depths[0]), float64(depths[0])
	for z, d := range depths {
		if float64(d) < low {
			least, low = z, float64(d)
		}
		high = math.Max(high, float64(d))
	}
	if high-low <= evenGauges*gauge {
		return plan.Evenly
	}
	return [...]plan.Wearing{plan.InsideLow, plan.MiddleLow, plan.OutsideLow}[least]
}
