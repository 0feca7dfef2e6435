package trip

import (
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

const (
	mile      = quantity.Length(1609.344)
	thirtyTwo = 0.0254 / 32 // m
)

// demo loads a fresh copy of a demo folder and its trip.
var (
	demo   = randomcar.Demo
	logged = randomcar.Logged
)
