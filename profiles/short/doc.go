// Package short works out which rows of the logbook a few words stand for, such
// as "RF 5.8mm" or "hub LR play": from the place, the size, the unit, what was
// written before and what the plan wants read. Where two things fit it says so
// and takes neither.
package short
