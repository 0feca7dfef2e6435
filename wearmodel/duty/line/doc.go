// Package line finds the line that a car would drive on a circuit known from a
// map alone: the middle of the tarmac becomes the line of least curvature
// between its edges, and that becomes a corner list.
//
// Places are meters on a plane, x to the right and y up; offsets and turns are
// positive to the left.
package line
