// Package trip walks an itinerary: its legs day by day, the clock, fuel, laps,
// what each leg asks of the car, and what the logbook says was driven before.
package trip
