// Package season chooses what is done about every set over a season, exactly:
// one path a set, from trip to trip, that share the trunk, the shelf, the visits
// to a shop and the labor on an axle.
package season
