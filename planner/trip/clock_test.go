package trip

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

var (
	departure = randomcar.Departure
	hours     = randomcar.Hours
	visit     = randomcar.Visit
	stop      = randomcar.Stop
	anyTrip   = randomcar.AnyTrip
)

// driven sends a trip through the clock alone: road legs give their hours as
// they are, on a car that does 1 m/s.
func driven(outing profiles.Trip) (Stages, error) {
	var model profiles.Model
	model.Session.DayHours = 9 * 3600
	s := Stages{Clock: NewClock(outing, model)}
	for _, leg := range outing.Legs {
		l := plan.Leg{Kind: leg.Kind, Name: leg.Name, Meters: float64(leg.Distance), Hours: float64(leg.Distance) / 3600, Fee: float64(leg.Fee)}
		if leg.Kind == profiles.CircuitLeg {
			l.Circuit, l.Days = leg.Name, leg.Days
		}
		if err := s.Stage(leg, l, Usage{}); err != nil {
			return s, err
		}
	}
	return s, nil
}

// TestDates are itineraries worked by hand: a day begins at 8, at most 9 h are
// driven, a circuit day takes from 8 to 17.
func TestDates(t *testing.T) {
	type leg struct {
		Start, End string
		Nights     int
	}
	owner := func(h float64, legs ...profiles.Leg) profiles.Trip {
		return profiles.Trip{Depart: departure, Legs: legs, DrivingDay: quantity.Duration(h * 3600)}
	}
	for _, c := range []struct {
		what    string
		trip    profiles.Trip
		legs    []leg
		driving []float64 // h by day
	}{
		{"twenty hours are 9, 9 and 2",
			owner(9, hours(20)), []leg{{"13 8:00", "15 10:00", 2}}, []float64{9, 9, 2}},
		{"exactly a day needs no night",
			owner(9, hours(9)), []leg{{"13 8:00", "13 17:00", 0}}, []float64{9}},
		{"the owner's most is kept to the minute",
			owner(9, hours(9.2)), []leg{{"13 8:00", "14 8:12", 1}}, []float64{9, 0.2}},
		{"two legs share a day's hours",
			owner(6, hours(4), hours(4)), []leg{{"13 8:00", "13 12:00", 0}, {"13 12:00", "14 10:00", 1}}, []float64{6, 2}},
		{"a circuit starts the morning after the road",
			owner(9, hours(12), visit(2)), []leg{{"13 8:00", "14 11:00", 1}, {"15 8:00", "15 17:00", 1}, {"16 8:00", "16 17:00", 1}}, []float64{9, 3, 0, 0}},
		{"home on the evening of the circuit day, where that gets there",
			owner(9, hours(2), visit(1), hours(2)), []leg{{"13 8:00", "13 10:00", 0}, {"14 8:00", "14 17:00", 1}, {"14 17:00", "14 19:00", 0}}, []float64{2, 2}},
		{"otherwise the next morning",
			owner(9, visit(1), hours(5)), []leg{{"13 8:00", "13 17:00", 0}, {"14 8:00", "14 13:00", 1}}, []float64{0, 5}},
		{"home just by night",
			owner(9, visit(1), hours(3)), []leg{{"13 8:00", "13 17:00", 0}, {"13 17:00", "13 20:00", 0}}, []float64{3}},
		{"a stop until just before night, and on in the morning",
			owner(9, hours(9), stop(3), hours(1)), []leg{{"13 8:00", "13 17:00", 0}, {"13 17:00", "13 20:00", 0}, {"14 8:00", "14 9:00", 1}}, []float64{9, 1}},
		{"a stop of two days from the morning",
			owner(9, stop(48), hours(1)), []leg{{"13 8:00", "15 8:00", 2}, {"15 8:00", "15 9:00", 0}}, []float64{0, 0, 1}},
		{"a day's stop goes on at the same hour, with the day's hours anew",
			owner(9, hours(3), stop(24), hours(9)), []leg{{"13 8:00", "13 11:00", 0}, {"13 11:00", "14 11:00", 1}, {"14 11:00", "14 20:00", 0}}, []float64{3, 9}},
		{"an afternoon's stop ends at night",
			owner(9, hours(9), stop(4), hours(1)), []leg{{"13 8:00", "13 17:00", 0}, {"13 17:00", "14 9:00", 1}, {"14 9:00", "14 10:00", 0}}, []float64{9, 1}},
		{"over the end of the month",
			profiles.Trip{Depart: time.Date(2027, 2, 28, 0, 0, 0, 0, time.UTC), DrivingDay: 9 * 3600, Legs: []profiles.Leg{hours(10)}},
			[]leg{{"28 8:00", "1 9:00", 1}}, []float64{9, 1}},
	} {
		s, err := driven(c.trip)
		if err != nil {
			t.Errorf("%s: %v", c.what, err)
			continue
		}
		var got []leg
		for _, l := range s.Legs {
			got = append(got, leg{l.Start.Format("2 15:04"), l.End.Format("2 15:04"), l.Nights})
		}
		for i := range c.legs {
			c.legs[i].Start, c.legs[i].End = clocked(c.legs[i].Start), clocked(c.legs[i].End)
		}
		if diff := cmp.Diff(c.legs, got); diff != "" {
			t.Errorf("%s (-want +got):\n%s", c.what, diff)
		}
		var driving []float64
		for _, d := range s.days {
			driving = append(driving, math.Round(d.Driving*1000)/1000)
		}
		if diff := cmp.Diff(c.driving, driving); diff != "" {
			t.Errorf("%s, hours by day (-want +got):\n%s", c.what, diff)
		}
	}
}

// clocked writes "13 8:00" as "13 08:00".
func clocked(s string) string {
	day, hour, _ := strings.Cut(s, " ")
	if len(hour) == 4 {
		hour = "0" + hour
	}
	return day + " " + hour
}

// TestStretch: without the owner's own most, half an hour more that ends the
// leg is driven; more is not.
func TestStretch(t *testing.T) {
	for h, nights := range map[float64]int{9.4: 0, 9.5: 0, 9.6: 1, 10: 1} {
		s, err := driven(profiles.Trip{Depart: departure, Legs: []profiles.Leg{hours(h)}})
		if err != nil || s.day != nights {
			t.Errorf("%g h: %d nights, %v; want %d", h, s.day, err, nights)
		}
	}
}

// TestFixedDate: early is waited for, in time is nothing special, late is an
// error that names the file and the leg.
func TestFixedDate(t *testing.T) {
	trip := func(date string) profiles.Trip {
		first, err := time.Parse(time.DateOnly, date)
		if err != nil {
			t.Fatal(err)
		}
		fixed := visit(1)
		fixed.Date, fixed.At = first, profiles.Position{File: "trips/spring.yaml", Line: 7, Column: 5}
		return profiles.Trip{Depart: departure, Legs: []profiles.Leg{hours(12), fixed}}
	}
	for date, waits := range map[string]int{"2027-05-15": 0, "2027-05-18": 3} {
		s, err := driven(trip(date))
		if err != nil {
			t.Errorf("%s: %v", date, err)
			continue
		}
		l := s.Legs[1]
		if l.Waits != waits || l.Nights != waits+1 || l.Start.Format(time.DateOnly) != date {
			t.Errorf("%s: starts %v after %d nights, %d of them waited", date, l.Start, l.Nights, l.Waits)
		}
	}
	_, err := driven(trip("2027-05-14"))
	var errs profiles.Errors
	if !errors.As(err, &errs) || len(errs) != 1 {
		t.Fatalf("too late: %v", err)
	}
	for _, part := range []string{"trips/spring.yaml:7:5", "oval on 2027-05-14", "expected a date from 2027-05-15"} {
		if !strings.Contains(err.Error(), part) {
			t.Errorf("%q does not say %q", err, part)
		}
	}
}

// TestClockProperties: dates never go back, no day holds more driving than
// allowed, every hour is driven, nights add up, a circuit starts at 8.
func TestClockProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trip := anyTrip(t)
		s, err := driven(trip)
		if err != nil {
			t.Fatal(err)
		}
		most := float64(trip.DrivingDay) / 3600
		var last time.Time
		nights, asked := 0, 0.0
		for _, l := range s.Legs {
			if l.Start.Before(last) || l.End.Before(l.Start) {
				t.Fatalf("%s from %v to %v after %v", l.Name, l.Start, l.End, last)
			}
			last = l.End
			nights += l.Nights
			asked += l.Hours
			if l.Kind == profiles.CircuitLeg && l.Start.Hour() != morning {
				t.Fatalf("a circuit day starts at %v", l.Start)
			}
		}
		got := 0.0
		for i, d := range s.days {
			if d.Driving > most+1e-9 {
				t.Fatalf("day %d: %g h on the road, %g allowed", i, d.Driving, most)
			}
			if d.Night != (i < len(s.days)-1) {
				t.Fatalf("day %d of %d: night %v", i, len(s.days), d.Night)
			}
			got += d.Driving
		}
		if nights != len(s.days)-1 || math.Abs(got-asked) > 1e-6 {
			t.Fatalf("%d nights in %d days, %g of %g h driven", nights, len(s.days), got, asked)
		}
	})
}

// TestFurtherIsNeverSooner: a longer road ends no sooner and takes no fewer
// nights, whatever comes after it.
func TestFurtherIsNeverSooner(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		trip := anyTrip(t)
		more := trip
		more.Legs = append([]profiles.Leg{hours(rapid.Float64Range(0, 30).Draw(t, "more"))}, trip.Legs...)
		a, errA := driven(trip)
		b, errB := driven(more)
		if errA != nil || errB != nil {
			t.Fatal(errA, errB)
		}
		// An evening's drive that is put off, or a stop that falls in the
		// night, may shift by part of a day, never the nights.
		if b.day < a.day {
			t.Fatalf("%d nights, with a longer road %d", a.day, b.day)
		}
	})
}
