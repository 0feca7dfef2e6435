// Package circuits describes a circuit's duty and ranks circuits by what they take
// from a car.
package circuits
