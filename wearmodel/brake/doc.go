// Package brake works out what braking takes from pads, rotors and fluid.
//
// Each braking of a lap puts its energy into the rotors at once, and a rotor
// cools exponentially until the next one begins. Pad wear, rotor cracking and
// thickness follow from the temperatures and energies of that march. A rotor
// is one lump of iron: hot spots, thickness variation, pad glazing, and brake
// ducts other than through Rotor.Area are left out.
//
// All values are SI except temperatures, which are degrees Celsius where said
// and kelvin where they are differences. The numbers of a part come from the
// caller; the numbers of the model stand here as constants, each with where it
// comes from. Lengths of wear are good to about a factor of 1.6 either way
// before an owner's measurements, rotor cracking to a factor of 2.5
// (engineering choice).
package brake
