// Package trace finds the lap of a circuit in a recorded track: fixes of a
// satellite receiver, one to twenty-five a second, from a session or a whole
// day at the circuit.
//
// The fixes are laid on a plane, cut into laps at a start line that is found
// and not given, and all hot laps together fit one closed line of piecewise
// constant curvature, which is a corner list. Because the line is fitted to
// the places of all laps at once, noise along the track does no harm, and
// every further lap sharpens it. Its corners then are fitted to the fixes as
// straights and arcs, and those that noise has bent are given up. Height is not used: banking and gradient are
// left out, as everywhere in the duty model.
package trace
