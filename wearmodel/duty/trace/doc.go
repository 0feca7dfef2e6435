// Package trace finds the lap of a circuit in a recorded track: fixes of a
// satellite receiver, one to twenty-five a second, from a session or a whole
// day at the circuit.
//
// The fixes are laid on a plane, cut into laps at a start line that is found
// and not given, and all hot laps together fit one closed smooth line. Because
// the line is fitted to the places of all laps at once, noise along the track
// does no harm, and every further lap sharpens it; a slow error of each lap's
// own is taken off. How smooth the line is, laps decide that were left out of
// it; which side it bends to, one half of the laps says, and by how much, the
// other. Height is not used: banking and gradient are left out, as everywhere
// in the duty model.
package trace
