// Package reliability says how likely a part that is good today is to last
// some way further, when lives scatter as a Weibull distribution of known
// shape whose scale is not known for this owner's car.
//
// Ages are damage sums in units of L10 (package bearing), not distances. What
// the owner's history at one corner teaches shifts the scale: failures,
// bearings still good, and bearings found bad between two inspections.
package reliability
