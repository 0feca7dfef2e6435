package profiles

import (
	"strings"
	"testing"

	"example.com/tripwear/profiles/faulty"
	"example.com/tripwear/profiles/nearest"
)

// fitting is the minimal folder with what its trip, and its first road, want on.
func fitting(t *testing.T, fit, road string) error {
	t.Helper()
	files := lay(t, faulty.Archive{})
	trip := files["trips/there.yaml"]
	text := strings.Replace(string(trip.Data), "legs:", "fit: "+fit+"\nlegs:", 1)
	trip.Data = []byte(strings.Replace(text, "distance: 300 mi}", "distance: 300 mi, fit: "+road+"}", 1))
	_, err := Load(files)
	return err
}

// TestFit: what a trip wants on and the car does not have is told, under the
// names that the sets have; a file may call them by the words of their ids.
func TestFit(t *testing.T) {
	var names []string
	called := map[string]string{}
	for _, s := range swapping() {
		names = append(names, s.Name)
		called[s.ID] = s.Name
	}
	got := told(fitting(t, "{front pads: pads-track-front, rear hubs: hub-bearing}", "tires"))
	for _, want := range []string{
		`unknown set "rear hubs"`, nearest.OneOf(names) + "\n",
		`fit: "tires" names no set and its part, expected sets with their parts, such as front pads: pads-track, or none` + "\n",
	} {
		if !strings.Contains(got, want) {
			t.Errorf("no %q in\n%s", want, got)
		}
	}
	want := `trips/there.yaml:3:19: part "pads-track-front" is neither on the car nor aside for the ` + called["pads-front"] + `, expected pads-street-front
  hint: list it under fitted in car.yaml, with aside: true
trips/there.yaml:5:54: part "pads-track-rear" is neither on the car nor aside for the ` + called["pads-rear"] + `, expected pads-street-rear
  hint: list it under fitted in car.yaml, with aside: true
`
	if got := told(fitting(t, "{front pads: pads-track-front}", "{rear pads: pads-track-rear}")); got != want {
		t.Errorf("told\n%s, not\n%s", got, want)
	}
	for _, name := range append(names, "pads-front", "pads", "front sills", "rear rotors") {
		err := fitting(t, "{"+name+": none-such}", "none")
		if unknown := strings.Contains(told(err), "unknown set"); unknown != (name == "front sills") {
			t.Errorf("%s: %s", name, told(err))
		}
	}
}
