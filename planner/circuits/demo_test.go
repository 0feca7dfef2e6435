package circuits

import "example.com/tripwear/planner/randomcar"

var (
	demo = randomcar.Demo
	days = randomcar.Days
)
