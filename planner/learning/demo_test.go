package learning

import (
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

const (
	mile      = quantity.Length(1609.344)
	thirtyTwo = 0.0254 / 32 // m
)

// demo loads a fresh copy of a demo folder and its trip.
var demo = randomcar.Demo

// fit replaces the measurements of a fitted part: as new, no days, no miles.
func fitNew(f *profiles.Folder, part string) {
	for i := range f.Car.Fitted {
		e := &f.Car.Fitted[i]
		if e.Part == part {
			*e = profiles.Fitted{Part: e.Part, At: e.At, Since: e.Since}
			e.Since.Odometer = f.Car.Odometer
		}
	}
}

func road(miles float64) profiles.Leg {
	return profiles.Leg{Kind: profiles.RoadLeg, Name: "a road", Distance: quantity.Length(miles) * mile, Surface: "highway", Ambient: 20}
}

func days(circuit string, n int, pace string) profiles.Leg {
	return profiles.Leg{
		Kind: profiles.CircuitLeg, Name: circuit, Days: n, Pace: pace, Ambient: 24,
		Sessions: profiles.Sessions{Count: 5, Each: 1200},
	}
}

// fitted is the entry of a part at a place of the folder's car.
func fitted(f *profiles.Folder, k profiles.Kind, at string) *profiles.Fitted {
	_, entry := f.On(k, at)
	return entry
}
