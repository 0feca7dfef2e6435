package profiles

// On is the part of a kind at a place of the car, and the entry that put it
// there; a folder without errors has one at each place that needs it.
func (f *Folder) On(k Kind, place string) (Part, *Fitted) {
	i := f.holder(k, place)
	if i < 0 {
		return Part{}, nil
	}
	on := &f.Car.Fitted[i]
	return f.Parts[on.Part], on
}
