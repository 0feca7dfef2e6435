package plan

import (
	"fmt"
	"math"

	"example.com/tripwear/profiles/quantity"
)

// Wearing is how the measured depths of a wheel's zones compare.
type Wearing string

// The comparisons.
const (
	NotMeasured Wearing = "not measured"
	Evenly      Wearing = "even"
	InsideLow   Wearing = "lowest inside"
	MiddleLow   Wearing = "lowest in the middle"
	OutsideLow  Wearing = "lowest outside"
)

// Probing is what a wheel's tread temperatures say, checked against its
// measured wear.
type Probing struct {
	Place    string     `json:"place"`
	Heat     [3]float64 `json:"heat"`    // C: inside, middle, outside
	Spread   float64    `json:"spread"`  // K
	Concern  string     `json:"concern"` // fine, watch or act
	Wear     Wearing    `json:"wear"`
	Pressure float64    `json:"pressure"`  // Pa to change the pressure by before the next reading; 0 to leave it
	Camber   float64    `json:"camber"`    // rad to change the camber by, negative for more negative; 0 to leave it
	Set      float64    `json:"set"`       // rad: the camber then; 0 where it is left
	Why      string     `json:"why"`       // what the advice, or its absence, rests on
	Loss     [3]float64 `json:"loss"`      // m: what the trip takes by zone as the car is set
	Would    [3]float64 `json:"would"`     // the same with the camber changed; zero where it is left
	Trips    float64    `json:"trips"`     // such trips that the tread lasts, to the limit at the first zone
	TripsNew float64    `json:"trips_new"` // the same with the camber changed
}

// Say puts in words what the temperatures ask for, as a setting to make.
func (r Probing) Say(u quantity.System) string {
	say := r.Why + "."
	if r.Pressure != 0 {
		say += fmt.Sprintf(" Try %s %s.", quantity.Inflation[u].Text(math.Abs(r.Pressure)), map[bool]string{true: "more", false: "less"}[r.Pressure > 0])
	}
	if r.Camber != 0 {
		camber := quantity.Camber[u]
		say += fmt.Sprintf(" Try %s %s negative: %s.", camber.Text(math.Abs(r.Camber)), map[bool]string{true: "less", false: "more"}[r.Camber > 0], camber.Text(r.Set))
	}
	return say
}

// Effect is what the wear model says of the camber to try; "" where it is left.
func (r Probing) Effect(u quantity.System) string {
	if r.Camber == 0 || math.IsInf(r.Trips, 1) {
		return ""
	}
	tread := quantity.Tread[u]
	zones := func(loss [3]float64) string {
		for z := range loss {
			loss[z] = math.Max(0, loss[z])
		}
		return tread.Number(loss[0]) + ", " + tread.Number(loss[1]) + ", " + tread.Text(loss[2])
	}
	lasts := fmt.Sprintf("a new tire lasts %.1f such trips instead of %.1f", r.TripsNew, r.Trips)
	switch now, then := math.Round(10*r.Trips), math.Round(10*r.TripsNew); {
	case then < now:
		lasts = "that is for grip and costs life: " + lasts
	case then == now:
		lasts = fmt.Sprintf("that is for grip: a new tire lasts %.1f such trips as before", r.Trips)
	}
	return fmt.Sprintf("By the model this trip then takes %s instead of %s (inside, middle, outside); %s.", zones(r.Would), zones(r.Loss), lasts)
}
