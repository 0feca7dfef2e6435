// Package projection follows every set of the car through a trip: where it
// starts, draw by draw what each leg takes, and from that bands and chances.
package projection
