// Package bearing works out how far a lap or a stretch of road uses up a hub
// bearing: the loads on the two rows of a double-row angular-contact unit by
// statics, their life by ISO 281.
//
// Life is counted in units of L10, the life that nine of ten reach; package
// reliability turns a sum of such shares into a chance of surviving. Fatigue
// by ISO 281 on a straight road is negligible, so the road's share comes from
// the mileage at which bearings fail in the field. Heat, loss of preload,
// water and impacts enter only through one severity for circuit use.
//
// All values are SI: m, N, s; lives in millions of revolutions where said.
package bearing
