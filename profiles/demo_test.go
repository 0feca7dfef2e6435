package profiles

import "testing"

func TestDemosLoad(t *testing.T) {
	for _, name := range DemoNames() {
		files, err := Demo(name)
		if err != nil {
			t.Fatal(err)
		}
		f, err := Load(files)
		if err != nil {
			t.Errorf("%s:\n%v", name, err)
			continue
		}
		if _, err := f.FindTrip(""); err != nil {
			t.Errorf("%s: %v", name, err)
		}
	}
}
