package decision

import (
	"math"
	"slices"
	"time"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// What fits into a day before departure, h; assumed.
const (
	evening = 4 // of work at home
	shopDay = 8 // of a shop's
)

// Order is when a part has to be ordered, and why by then.
type Order struct {
	By    time.Time // the last day; the departure where it is sold over a counter
	There time.Time // the last day on which it may come
	For   string    // what has to follow before departure
}

// workingDays is how many working days a delivery takes, part of one as one.
func workingDays(lead quantity.Duration) int { return int(math.Ceil(float64(lead) / 86400)) }

// Ordered says whether a part is ordered some days before a trip.
func Ordered(way *trip.Journey, part profiles.Part, buy string) bool {
	return part.LeadTime > 0 && buy != plan.BuyOnTheWay && way.Under == nil && !way.Depart.IsZero()
}

// OrderFor is when to order a part for a trip that leaves on a day. Deliveries
// count working days and come on one. What goes on before leaving is fitted
// from the evening of the day it comes, or in a shop on working days after it,
// and what is bedded in takes a day more; the rest is there to be packed.
func OrderFor(depart time.Time, part profiles.Part, buy string) Order {
	lead := workingDays(part.LeadTime)
	if lead <= 0 {
		return Order{By: depart, There: depart}
	}
	o := Order{There: depart.AddDate(0, 0, -1), For: "to be packed"}
	if buy == plan.BuyBefore {
		work, beds := float64(part.Hours)/3600, kind.Of(part.Kind).Beds
		if beds {
			o.There = o.There.AddDate(0, 0, -1)
		}
		if slices.Contains(part.Fit, "home") {
			o.There, o.For = o.There.AddDate(0, 0, min(0, 1-int(math.Ceil(work/evening)))), "to be fitted at home"
		} else {
			o.There, o.For = workingDaysBefore(lastWorkingDay(o.There), max(1, int(math.Ceil(work/shopDay)))), "to be fitted at a shop"
		}
		if beds {
			o.For += " and bedded in"
		}
	}
	o.There = lastWorkingDay(o.There)
	o.By = workingDaysBefore(o.There, lead)
	return o
}

// Late says whether the day to order has passed.
func (o Order) Late(today time.Time) bool {
	return !today.IsZero() && !today.Before(o.By.AddDate(0, 0, 1))
}

// lastWorkingDay is a day, or the Friday before where it is on a weekend.
func lastWorkingDay(day time.Time) time.Time {
	for day.Weekday() == time.Saturday || day.Weekday() == time.Sunday {
		day = day.AddDate(0, 0, -1)
	}
	return day
}

// workingDaysBefore is n working days before one.
func workingDaysBefore(day time.Time, n int) time.Time {
	for range n {
		day = lastWorkingDay(day.AddDate(0, 0, -1))
	}
	return day
}
