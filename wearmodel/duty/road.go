package duty

// Surface is a kind of road as the car meets it.
type Surface struct {
	Speed       float64 // m/s, the usual cruise
	BrakeEnergy float64 // J per km into the friction brakes of a car of 1300 kg
}

// surfaceMass is the mass (kg) that a surface's braking energy is stated for.
const surfaceMass = 1300

// Road is one kilometer of road at a steady speed on a straight, with the
// surface's braking energy by the car's mass. Drive energy is what braking,
// air drag and rolling take away. A surface without a positive speed has no
// states. Braking energy by surface: engineering choice.
func (v Vehicle) Road(s Surface) Duty {
	const km = 1000
	d := Duty{Meters: km, BrakeEnergy: s.BrakeEnergy * v.Mass / surfaceMass}
	if !(s.Speed > 0) {
		return d
	}
	cruise := State{Seconds: km / s.Speed, V: s.Speed}
	d.States = []State{cruise}
	d.Seconds = cruise.Seconds
	d.DriveEnergy = float64(v.TractiveForce(cruise)*km) + d.BrakeEnergy
	d.TopSpeed, d.MinSpeed = s.Speed, s.Speed
	return d
}
