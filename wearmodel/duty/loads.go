package duty

// The clamp on the front brake share: a proportioned system keeps some rear
// braking at any deceleration, and never less than half in front.
// Engineering choice.
const (
	minFrontBrakeShare = 0.50
	maxFrontBrakeShare = 0.85
)

// TractiveForce is the force (N, + drives, - brakes) that the engine or the
// brakes supply at the wheels to hold the state against the inertia of car and
// rotating parts, air drag and rolling resistance.
func (v Vehicle) TractiveForce(s State) float64 {
	return float64(v.Rotating*v.Mass*s.Ax) + float64(v.dragFactor()*s.V*s.V) + v.rollingForce()
}

// dragFactor is the air drag per (m/s)2, N s2/m2.
func (v Vehicle) dragFactor() float64 { return v.AirDensity * v.DragArea / 2 }

// rollingForce is the rolling resistance, N.
func (v Vehicle) rollingForce() float64 { return float64(v.Rolling * v.Mass * G) }

// FrontBrakeShare is the front axle's share of braking at a deceleration
// (m/s2, positive): the ideal split by axle load, clamped to 0.50-0.85.
// Statics of a rigid body.
func (v Vehicle) FrontBrakeShare(decel float64) float64 {
	share := v.FrontShare + decel/G*v.CGHeight/v.Wheelbase
	return min(maxFrontBrakeShare, max(minFrontBrakeShare, share))
}

// Loads gives the vertical load and the horizontal force of each wheel.
// Load transfer is that of a rigid body; a load never falls below zero, and
// what the lifted wheel would have carried goes to its neighbor on the axle.
func (v Vehicle) Loads(s State) [4]Wheel {
	var w [4]Wheel
	weight := v.Mass * G
	pitch := float64(v.Mass * s.Ax * v.CGHeight / v.Wheelbase)
	roll := v.Mass * s.Ay * v.CGHeight
	axle(w[0:2], float64(weight*v.FrontShare)-pitch, roll*v.RollFront/v.TrackFront)
	axle(w[2:4], float64(weight*(1-v.FrontShare))+pitch, roll*(1-v.RollFront)/v.TrackRear)

	lateral := v.Mass * s.Ay
	front, rear := v.longitudinal(s, w)
	share(w[0:2], front, lateral*v.FrontShare)
	share(w[2:4], rear, lateral*(1-v.FrontShare))
	return w
}

// axle sets the two loads of an axle (left, right) from its total and the
// transfer from left to right.
func axle(w []Wheel, total, transfer float64) {
	total = max(0, total)
	transfer = max(-total/2, min(total/2, transfer))
	w[0].Fz, w[1].Fz = float64(total/2)-transfer, float64(total/2)+transfer
}

// tireForce is the part of the tractive force (N) that passes between tire and
// road: the rotating parts are sped up and slowed by engine and brakes alone.
func (v Vehicle) tireForce(s State) float64 {
	return float64(v.Mass*s.Ax) + float64(v.dragFactor()*s.V*s.V) + v.rollingForce()
}

// longitudinal splits the tire force over the axles.
func (v Vehicle) longitudinal(s State, w [4]Wheel) (front, rear float64) {
	f := v.tireForce(s)
	if f < 0 {
		phi := v.FrontBrakeShare(-s.Ax)
		return f * phi, f * (1 - phi)
	}
	switch v.Drive {
	case FrontDrive:
		return f, 0
	case AllDrive:
		fz := w[LF].Fz + w[RF].Fz
		all := fz + (w[LR].Fz + w[RR].Fz) // the order keeps left and right alike
		return f * fz / all, f * (1 - fz/all)
	default:
		return 0, f
	}
}

// share splits an axle's forces across its two wheels by their loads.
func share(w []Wheel, fx, fy float64) {
	total := w[0].Fz + w[1].Fz
	if total == 0 {
		return
	}
	for i := range w {
		w[i].Fx, w[i].Fy = fx*w[i].Fz/total, fy*w[i].Fz/total
	}
}

// Lifts says whether the state lifts a wheel off the road.
func (v Vehicle) Lifts(s State) bool {
	for _, w := range v.Loads(s) {
		if w.Fz <= 0 {
			return true
		}
	}
	return false
}

// BrakingEnergy is the energy (J) that a braking puts into the friction
// brakes: kinetic energy with rotating parts, less air drag, rolling
// resistance and engine braking (0.03 g, assumed), never negative.
// Elementary mechanics; d follows from constant deceleration. A braking
// without deceleration has no energy.
func (v Vehicle) BrakingEnergy(b Braking) float64 {
	const engine = 0.03
	if !(b.Decel > 0) {
		return 0
	}
	squares := float64(b.From*b.From) - float64(b.To*b.To)
	d := squares / (2 * b.Decel)
	kinetic := float64(0.5 * v.Rotating * v.Mass * squares)
	air := float64(v.dragFactor() * d * (float64(b.From*b.From) + float64(b.To*b.To)) / 2)
	other := float64((v.rollingForce() + float64(engine*v.Mass*G)) * d)
	return b.Factor * max(0, kinetic-air-other)
}
