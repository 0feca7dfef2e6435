package logbook

import "testing"

// A trip is driven as planned, in part, with fewer sessions, or in the wet.
func TestTripAsDriven(t *testing.T) {
	for value, want := range map[string]Entry{
		"spring":                     {Text: "spring"},
		"spring 2":                   {Text: "spring", First: 2, Last: 2},
		"spring 1-3, 4 sessions":     {Text: "spring", First: 1, Last: 3, Sessions: 4},
		"spring 2 3 sessions wet":    {Text: "spring", First: 2, Last: 2, Sessions: 3, Wet: true},
		"spring legs 2, 1 session":   {Text: "spring", First: 2, Last: 2, Sessions: 1},
		"spring, wet":                {Text: "spring", Wet: true},
		"spring 2-3, 3 sessions,wet": {},
		"spring 2, 0 sessions":       {},
		"spring 2, wet, 3 sessions":  {},
		"spring 3 session":           {Text: "spring", Sessions: 3},
	} {
		e, faults := Parse(Row{"date": "2027-05-14", "odometer": "144000 mi", "what": "trip driven", "value": value})
		if good := want.Text != ""; good != (len(faults) == 0) {
			t.Errorf("%s: %v", value, faults)
		} else if good && (e.Text != want.Text || e.First != want.First || e.Last != want.Last || e.Sessions != want.Sessions || e.Wet != want.Wet) {
			t.Errorf("%s: %+v", value, e)
		}
	}
}
