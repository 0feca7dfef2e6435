package learning

import (
	"example.com/tripwear/profiles"
)

// fitted is the entry of a part at a place of the folder's car.
func fitted(f *profiles.Folder, k profiles.Kind, at string) *profiles.Fitted {
	_, entry := f.On(k, at)
	return entry
}
