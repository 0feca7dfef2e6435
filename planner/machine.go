package planner

import (
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/trace"
	"example.com/tripwear/wearmodel/bearing"
	"example.com/tripwear/wearmodel/brake"
	"example.com/tripwear/wearmodel/duty"
	"example.com/tripwear/wearmodel/tire"
)

// Values of a car that a profile may leave out.
const (
	defaultRollFront  = 0.58 // front-biased, as road cars are; engineering choice
	defaultFriction   = 1.0  // peak friction of a good road tire; engineering choice
	rollingResistance = 0.013
	airDensity        = 1.20 // kg/m3, 20 C at sea level
	drivelineShare    = 0.87
	rotatingMass      = 1.04
)

// machine is the car with its fitted parts as the wear models see it.
type machine struct {
	vehicle duty.Vehicle
	tires   [4]tire.Fitted
	axles   [2]brake.Axle // front, rear
	hubs    [4]bearing.Hub
	radius  [4]float64 // m, rolling
	surveys *surveys
	known   *lapMemory
}

// fitting is a part on the car and the entry that put it there.
type fitting struct {
	part  profiles.Part
	entry *profiles.Fitted
}

// fittings indexes the fitted parts by kind and place.
func fittings(f *profiles.Folder) map[profiles.Kind]map[string]fitting {
	all := map[profiles.Kind]map[string]fitting{}
	for i := range f.Car.Fitted {
		entry := &f.Car.Fitted[i]
		part := f.Parts[entry.Part]
		if all[part.Kind] == nil {
			all[part.Kind] = map[string]fitting{}
		}
		for _, at := range entry.At {
			all[part.Kind][at] = fitting{part, entry}
		}
	}
	return all
}

// build turns profiles into the wear models' inputs.
func build(f *profiles.Folder) machine {
	car := f.Car
	m := machine{vehicle: duty.Vehicle{
		Mass:       float64(car.Mass),
		FrontShare: float64(car.FrontWeight),
		Wheelbase:  float64(car.Wheelbase),
		TrackFront: float64(car.Track.Front),
		TrackRear:  float64(car.Track.Rear),
		CGHeight:   float64(car.CGHeight),
		Drive:      map[string]duty.Drive{"rear": duty.RearDrive, "front": duty.FrontDrive, "all": duty.AllDrive}[car.Drive],
		Power:      float64(car.Power),
		DragArea:   float64(car.DragArea),
		RollFront:  orDefault(float64(car.RollFront), defaultRollFront),
		Friction:   orDefault(float64(car.Friction), defaultFriction),
		Rolling:    rollingResistance,
		AirDensity: airDensity,
		Driveline:  drivelineShare,
		Rotating:   rotatingMass,
	}}
	m.surveys = &surveys{laps: map[*trace.Trace]surveyed{}}
	m.known = &lapMemory{duties: map[driving]func() (duty.Duty, error){}}
	parts := fittings(f)
	for _, p := range duty.Places {
		at := p.String()
		m.tires[p] = tire.Fitted{
			Tread:   tread(parts[profiles.Tire][at].part.Tire, f.Model, m.vehicle.Friction),
			Setting: tire.Setting{Camber: float64(car.Alignment[at].Camber), Toe: float64(car.Alignment[at].Toe)},
		}
		m.radius[p] = m.tires[p].Radius
		m.hubs[p] = hub(parts[profiles.Bearing][at].part.Bearing)
	}
	for i, at := range []string{"LF", "LR"} {
		m.axles[i] = axle(parts[profiles.Pads][at].part.Pads, parts[profiles.Rotors][at].part.Rotors, i == 0)
	}
	return m
}

func tread(t *profiles.TirePart, model profiles.Model, friction float64) tire.Tread {
	const milligramPerKmTonne = 1e-12 // in kg per m per kg of load
	return tire.Tread{
		Grade:     float64(t.Treadwear),
		Radius:    float64(t.Radius),
		Width:     float64(t.TreadWidth),
		Land:      float64(t.Land),
		Cornering: float64(t.Cornering),
		Driving:   float64(t.Driving),
		Friction:  friction,
		Abrasion:  float64(t.Abrasion),
		HotFactor: float64(model.Tire.HotFactor),
		RoadRate:  float64(model.Tire.RoadRate) * milligramPerKmTonne,
		Density:   float64(model.Tire.Density) * 1000,
	}
}

func hub(b *profiles.BearingPart) bearing.Hub {
	return bearing.Hub{
		Offset:     float64(b.Offset),
		Spread:     float64(b.Spread),
		Capacity:   float64(b.Capacity),
		LoadFactor: float64(b.LoadFactor),
		Severity:   float64(b.Severity),
		RoadLife:   float64(b.RoadLife),
	}
}

func axle(p *profiles.PadsPart, r *profiles.RotorsPart, front bool) brake.Axle {
	return brake.Axle{
		Pad: brake.Pad{
			Wear:       float64(p.Wear),
			Threshold:  float64(p.Threshold),
			Activation: float64(p.Activation),
			MaxBulk:    float64(p.MaxBulk),
			RotorWear:  float64(p.RotorWear),
			Area:       float64(p.Area),
		},
		Rotor: brake.Rotor{
			RingMass:      float64(r.RingMass),
			Area:          float64(r.Area),
			FaceArea:      float64(r.FaceArea),
			RadiatingArea: float64(r.RadiatingArea),
			Vented:        r.Vented,
			Crack:         float64(r.Crack),
		},
		Front: front,
	}
}

func orDefault(v, fallback float64) float64 {
	if v == 0 {
		return fallback
	}
	return v
}

// segments turns a circuit's corners into the lap simulation's.
func segments(corners []profiles.Corner) []duty.Segment {
	out := make([]duty.Segment, len(corners))
	for i, c := range corners {
		out[i] = duty.Segment{Straight: float64(c.Straight), Turn: float64(c.Turn), Radius: float64(c.Radius)}
	}
	return out
}
