package profiles

import "example.com/tripwear/profiles/trace"

// letGo keeps of a circuit what other files are checked against.
func (l *loader) letGo(id string) {
	c := l.folder.Circuits[id]
	kept := Circuit{ID: id, Name: c.Name, LapTime: c.LapTime, Notes: c.Notes}
	if c.Trace != nil {
		kept.Trace = new(trace.Trace)
	}
	l.folder.Circuits[id] = kept
	l.folder.again = l.circuitAgain
}

// takeBack reads the circuits again that trips name.
func (l *loader) takeBack() {
	whole := map[string]bool{}
	for _, t := range l.folder.Trips {
		for _, leg := range t.Legs {
			if _, known := l.folder.Circuits[leg.Name]; leg.Kind == CircuitLeg && known {
				whole[leg.Name] = true
			}
		}
	}
	for id := range whole {
		if c, err := l.circuitAgain(id); err == nil { // what is wrong with it is told already
			l.folder.Circuits[id] = c
		}
	}
	l.folder.whole = whole
}

func (l *loader) circuitAgain(id string) (Circuit, error) {
	again := &loader{fsys: l.fsys, docs: l.docs, folder: &Folder{Circuits: map[string]Circuit{}, Model: l.folder.Model}, broken: map[string]bool{}}
	again.circuit("circuits/" + id + ".yaml")
	return again.folder.Circuits[id], again.errs.Sorted()
}

// Circuit is a circuit of the folder, read again where it was let go.
func (f *Folder) Circuit(id string) (Circuit, error) {
	if f.again == nil || f.whole[id] {
		return f.Circuits[id], nil
	}
	return f.again(id)
}
