package trip

import (
	"fmt"
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// The day on the way. Engineering choices: nobody's day is known to the hour.
const (
	morning    = 8.0  // o'clock when a day begins
	wakingDay  = 12.0 // h from morning to night: driving, stops and circuit together
	circuitDay = 9.0  // h that a circuit day takes, of them
	stretch    = 0.5  // h more that are driven where that ends the leg, unless the owner set the most
)

// Clock goes through the trip day by day. A day on the road ends when the
// most hours of driving are reached, or with the night; a circuit day starts
// in the morning. On the evening of a circuit day the car goes on only where
// that gets it there.
type Clock struct {
	depart       time.Time
	drivingDay   float64   // h on the road in a day
	stretch      float64   // h more where that ends the leg
	wholeDay     float64   // h from morning to night
	day          int       // nights since departure
	sinceMorning float64   // h since the morning
	driven       float64   // h on the road today
	afterCircuit bool      // the day was spent on a circuit
	start        time.Time // when the leg under way began
	days         []plan.Day
}

// NewClock starts a trip on the morning of its departure, or from where it
// stands under way.
func NewClock(trip profiles.Trip, model profiles.Model) *Clock {
	most := float64(trip.DrivingDay)
	if most <= 0 {
		most = float64(model.Session.DayHours)
	}
	c := &Clock{depart: trip.Depart, drivingDay: most / 3600}
	if trip.DrivingDay <= 0 {
		c.stretch = stretch
	}
	c.wholeDay = math.Max(wakingDay, c.drivingDay+c.stretch)
	if u := trip.Under; u != nil {
		c.sinceMorning, c.driven, c.afterCircuit = u.Hour, u.Driving, u.Circuit && u.Hour > 0
	}
	c.openDay()
	return c
}

// openDay begins the record of today.
func (c *Clock) openDay() {
	d := plan.Day{}
	if !c.depart.IsZero() {
		d.Date = c.depart.AddDate(0, 0, c.day)
	}
	c.days = append(c.days, d)
}

// overnight spends a night away.
func (c *Clock) overnight() {
	c.days[c.day].Night = true
	c.day++
	c.sinceMorning, c.driven, c.afterCircuit = 0, 0, false
	c.openDay()
}

// now is days since the midnight before departure.
func (c *Clock) now() float64 { return float64(c.day) + (morning+c.sinceMorning)/24 }

// date is now in the calendar; zero where the trip has no date.
func (c *Clock) date() time.Time {
	if c.depart.IsZero() {
		return time.Time{}
	}
	return c.depart.AddDate(0, 0, c.day).Add(time.Duration((morning + c.sinceMorning) * float64(time.Hour))).Round(time.Minute)
}

// note records that a leg takes some of today, and when it begins.
func (c *Clock) note(leg int) {
	if today := c.days[c.day].Legs; !slices.Contains(today, leg) && (c.day == 0 || !slices.Contains(c.days[c.day-1].Legs, leg)) {
		c.start = c.date()
	}
	today := &c.days[c.day]
	if n := len(today.Legs); n == 0 || today.Legs[n-1] != leg {
		today.Legs = append(today.Legs, leg)
	}
}

// drive spends h hours on the road.
func (c *Clock) drive(leg int, h float64) {
	room := func() float64 { return math.Min(c.drivingDay-c.driven, c.wholeDay-c.sinceMorning) }
	if c.afterCircuit && h > room() {
		c.overnight()
	}
	for {
		step := math.Min(h, room())
		if h-step <= c.stretch {
			step = h
		}
		if step > 0 {
			c.note(leg)
			c.sinceMorning += step
			c.driven += step
			c.days[c.day].Driving += step
			h -= step
		}
		if h <= 0 {
			return
		}
		c.overnight()
	}
}

// opens waits until a stop is open, for as long as the car stands there where
// it is open so long on a day.
func (c *Clock) opens(hours []quantity.Span, stay float64) {
	if c.depart.IsZero() {
		return
	}
	for range 7 * min(1, len(hours)) {
		today, now := c.depart.AddDate(0, 0, c.day).Weekday(), morning+c.sinceMorning
		for _, s := range hours {
			need := stay
			if need > s.To-max(s.From, morning) {
				need = 0
			}
			if s.Days[today] && now+need < s.To {
				c.sinceMorning = max(now, s.From) - morning
				return
			}
		}
		c.overnight()
	}
}

// stand keeps the car at a stop for h hours: whole days to the same hour of
// a later day, the rest by day.
func (c *Clock) stand(leg int, h float64) {
	c.note(leg)
	for ; h >= 24; h -= 24 {
		gone := c.sinceMorning
		c.overnight()
		c.sinceMorning = gone
		c.note(leg)
	}
	for h > 0 {
		step := math.Min(h, c.wholeDay-c.sinceMorning)
		c.sinceMorning += step
		if h -= step; h > 0 {
			c.overnight()
			c.note(leg)
		}
	}
}

// waitFor goes to the morning of a circuit's first day; where that is fixed it
// says how many whole days the car waits for it.
func (c *Clock) waitFor(leg profiles.Leg) (waits int, err error) {
	if c.sinceMorning > 0 {
		c.overnight()
	}
	if leg.Date.IsZero() || c.depart.IsZero() {
		return 0, nil
	}
	first := c.depart.AddDate(0, 0, c.day)
	if leg.Date.Before(first) {
		return 0, profiles.Errors{&profiles.Error{
			Position: leg.At,
			What:     fmt.Sprintf("%s on %s cannot be reached: the legs before it take until the day before %s", leg.Name, leg.Date.Format(time.DateOnly), first.Format(time.DateOnly)),
			Expected: "a date from " + first.Format(time.DateOnly),
			Hint:     "depart earlier, give a longer driving_day, or leave out a stop",
		}}
	}
	for ; c.depart.AddDate(0, 0, c.day).Before(leg.Date); waits++ {
		c.overnight()
	}
	return waits, nil
}

// circuit spends a day on a circuit.
func (c *Clock) circuit(leg int) {
	if c.sinceMorning > 0 {
		c.overnight()
	}
	c.note(leg)
	c.sinceMorning, c.afterCircuit = circuitDay, true
}
