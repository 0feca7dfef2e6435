package labreport

import (
	"example.com/tripwear/planner/randomcar"
)

// demo loads a fresh copy of a demo folder and its trip.
var (
	demo    = randomcar.Demo
	sampled = randomcar.Sampled
)
