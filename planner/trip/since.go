package trip

import (
	"example.com/tripwear/planner/kind"
)

// SinceFitted is what the driving since a part was fitted took by the model: up
// to car.yaml's odometer the miles and the circuit days given there, on the
// stock reference lap, after that the logbook's trips. Of the miles that nobody
// knows it was on for any share may be its own: doubtful is what they took of
// the road's.
func (w *Journey) SinceFitted(a kind.At, of func(*kind.Wear) float64) (road, circuit, doubtful float64) {
	car, e := w.Folder.Car, a.Entry
	if e.Logged {
		road, circuit = w.Past.Worn(of, w.Past.On(a), float64(e.Since.Odometer), float64(car.Odometer))
		return road, circuit, 0
	}
	road, circuit = w.SinceWritten(a, of)
	miles := max(0, car.Written-e.Since.Odometer)
	if e.Partly {
		miles = e.Distance
	}
	before := float64(of(&w.PerMeter) * float64(miles))
	if e.Since.Unmetered && !e.Partly {
		doubtful = before
	}
	circuit += float64(of(&w.PerDay) * float64(e.CircuitDays))
	if e.HeatCycles > 0 { // counted, not taken as the usual ones of the days
		circuit += of(&kind.Wear{Sessions: float64(e.HeatCycles) - float64(w.PerDay.Sessions*float64(e.CircuitDays))})
	}
	return road + before, circuit, doubtful
}

// Cycles is how often a part has been heated on circuits, a session being one, by
// the end of the trip.
func (w *Journey) Cycles(a kind.At) float64 {
	_, n, _ := w.SinceFitted(a, kind.Sessions)
	for _, u := range w.UsagesOf(setOf(kind.Of(a.Part.Kind), a.Place), a.Part.ID) {
		n += kind.Sessions(u.Nominal())
	}
	return n
}

// pastLife is how many lives a part has behind it at most, of whose age nothing is
// known: it is found anywhere in its life, or of ten one past it. Engineering
// choice.
const pastLife = 1.1

// WornSince is what a point has lost since its part was fitted. What is looked at
// was changed when it was worn, so that it has not the car's whole age behind it.
func (w *Journey) WornSince(a kind.At, p kind.Point) (road, circuit, doubtful float64) {
	road, circuit, doubtful = w.SinceFitted(a, p.Of)
	if over := doubtful - float64(pastLife*(p.New-p.Limit)); over > 0 && !kind.Of(a.Part.Kind).Counted {
		road, doubtful = road-over, doubtful-over
	}
	return road, circuit, doubtful
}

// SinceWritten is what was driven past car.yaml's odometer took from a part by
// the model.
func (w *Journey) SinceWritten(a kind.At, of func(*kind.Wear) float64) (road, circuit float64) {
	return w.Past.Worn(of, w.Past.On(a), float64(w.Folder.Car.Written), float64(w.Folder.Car.Odometer))
}
