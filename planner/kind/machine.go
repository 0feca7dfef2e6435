package kind

import (
	"example.com/tripwear/planner/labreport"
	"example.com/tripwear/profiles"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/oil"
	"example.com/tripwear/wearmodel/tire"
)

// Values of a car that a profile may leave out.
const (
	defaultRollFront  = 0.58 // front-biased, as road cars are; engineering choice
	defaultFriction   = 1.0  // peak friction of a good road tire; engineering choice
	rollingResistance = 0.013
	airDensity        = 1.20 // kg/m3, 20 C at sea level
	DrivelineShare    = 0.87
	rotatingMass      = 1.04
)

// Machine is the car with its fitted parts as the wear models see it.
type Machine struct {
	Vehicle duty.Vehicle
	Tires   [4]tire.Fitted
	Axles   [2]brake.Axle // front, rear
	Hubs    [4]bearing.Hub
	Oil     oil.Heat
	Radius  [4]float64 // m, rolling
}

// NewMachine turns profiles into the wear models' inputs.
func NewMachine(f *profiles.Folder) Machine {
	car := f.Car
	m := Machine{Vehicle: duty.Vehicle{
		Mass:       float64(car.Mass),
		FrontShare: float64(car.FrontWeight),
		Wheelbase:  float64(car.Wheelbase),
		TrackFront: float64(car.Track.Front),
		TrackRear:  float64(car.Track.Rear),
		CGHeight:   float64(car.CGHeight),
		Drive:      map[string]duty.Drive{"rear": duty.RearDrive, "front": duty.FrontDrive, "all": duty.AllDrive}[car.Drive],
		Power:      float64(car.Power),
		DragArea:   float64(car.DragArea),
		RollFront:  or(float64(car.RollFront), defaultRollFront),
		Friction:   or(float64(car.Friction), defaultFriction),
		Rolling:    rollingResistance,
		AirDensity: airDensity,
		Driveline:  DrivelineShare,
		Rotating:   rotatingMass,
	}, Oil: labreport.Heat(f)}
	on := Fitted(f)
	for _, p := range duty.Places {
		at := p.String()
		m.Tires[p] = tire.Fitted{
			Tread:   tread(on[profiles.Tire][at].Part.Tire, f.Model, m.Vehicle.Friction),
			Setting: tire.Setting{Camber: float64(car.Alignment[at].Camber), Toe: float64(car.Alignment[at].Toe)},
		}
		m.Radius[p] = m.Tires[p].Radius
		m.Hubs[p] = hub(on[profiles.Bearing][at].Part.Bearing)
	}
	for i, at := range []string{"LF", "LR"} {
		m.Axles[i] = axle(on[profiles.Pads][at].Part.Pads, sized(car, on[profiles.Rotors][at].Part), i == 0)
	}
	return m
}

// or is a value, or another where it is not given.
func or(v, fallback float64) float64 {
	if v == 0 {
		return fallback
	}
	return v
}

// Fitted indexes what is on the car by kind and place.
func Fitted(f *profiles.Folder) map[profiles.Kind]map[string]At {
	all := map[profiles.Kind]map[string]At{}
	for i := range f.Car.Fitted {
		entry := &f.Car.Fitted[i]
		part := f.Parts[entry.Part]
		if all[part.Kind] == nil {
			all[part.Kind] = map[string]At{}
		}
		for _, place := range entry.At {
			all[part.Kind][place] = At{Folder: f, Part: part, Entry: entry, Place: place}
		}
	}
	return all
}

// wheel is the wheel of a place's name.
func wheel(place string) duty.Place {
	for _, p := range duty.Places {
		if p.String() == place {
			return p
		}
	}
	return 0 // profiles hold no other
}
