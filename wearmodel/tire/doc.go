// Package tire works out how a tire's tread wears by zone on the road and on
// a circuit, and what the tread that is left means: hydroplaning speed, wet
// stopping distance, treadwear grade, toe geometry.
//
// Two mechanisms carry it. On the road, tread is lost in proportion to wheel
// load and distance, with the toe's scrub added. On a circuit, tread is lost
// in proportion to the energy that slip grinds into the road, from the brush
// model and the wheel loads of package duty. A wheel's mean is then spread
// over three zones (inside, middle, outside) by camber and by the side force.
//
// A treadwear grade is used as a ratio only: it is not a mileage. Tread
// temperature enters as one factor on circuits; pressure, compound ageing and
// tearing are left out. Expect the mean of one set to be out by a quarter on
// the road and by two fifths on a circuit (one standard deviation of the
// logarithm, engineering choice) until measurements say better.
//
// All values are SI: m, rad, kg, N, J, Pa, m/s.
package tire
