package learning

import (
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
)

var (
	demo   = randomcar.Demo
	fitNew = randomcar.FitNew
	road   = randomcar.Road
	days   = randomcar.Days
)

// fitted is the entry of a part at a place of the folder's car.
func fitted(f *profiles.Folder, k profiles.Kind, at string) *profiles.Fitted {
	_, entry := f.On(k, at)
	return entry
}
