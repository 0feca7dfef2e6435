// Package screen writes the first screen of a plan: what an owner acts on, in the
// order in which it is done, in about 25 lines of 80 columns or of 42.
package screen
