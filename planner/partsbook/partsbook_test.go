package partsbook

import (
	"bytes"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestReadBack reads the sheet as a spreadsheet program shows it: shares, months
// and counts are numbers there, and a name is text whatever it begins with.
func TestReadBack(t *testing.T) {
	day := func(text string) time.Time {
		d, err := time.Parse(time.DateOnly, text)
		if err != nil {
			t.Fatal(err)
		}
		return d
	}
	cycles := 27.0
	inv := &plan.Inventory{
		Car: "=1+1", Day: day("2027-05-02"), Since: day("2025-03-20"), Odometer: 160934.4, Meters: 1609344, Days: 0.3,
		Parts: []plan.InUse{
			{Name: "front tires", Kind: profiles.Tire, PartName: "=HYPERLINK()", Used: 0.833333, By: "RF inside", Due: day("2027-07-17"), Cycles: &cycles, Most: 40, Notes: []string{"old", "hot"}, Measured: "measured"},
			{Name: "timing belt", Kind: "timing belt", Used: 1.01, By: "engine distance"},
			{Name: "rear rotors", Kind: profiles.Rotors, Used: 0.05},
			{Name: "LF hub bearing", Kind: profiles.Bearing, Used: 1.4},
		},
	}
	var first, second bytes.Buffer
	for _, into := range []*bytes.Buffer{&first, &second} {
		if err := Write(into, inv, quantity.US); err != nil {
			t.Fatal(err)
		}
	}
	if !bytes.Equal(first.Bytes(), second.Bytes()) {
		t.Error("the same list gave other bytes")
	}
	f, err := excelize.OpenReader(&first)
	if err != nil {
		t.Fatal(err)
	}
	for cell, want := range map[string]string{
		"A1": "=1+1 at 100 mi on 2 May 2027", "A4": "set",
		"A5": "front tires", "B5": "=HYPERLINK()", "C5": "83%", "D5": "RF inside", "E5": "Jul 2027", "F5": "27", "G5": "40", "H5": "old; hot", "I5": "measured",
		"C6": "101%", "E6": "past its limit now", "F6": "", "E7": "not within 10 years", "E8": "fails by chance",
	} {
		if got, err := f.GetCellValue(name, cell); err != nil || got != want {
			t.Errorf("%s is %q, want %q: %v", cell, got, want, err)
		}
		if formula, err := f.GetCellFormula(name, cell); err != nil || formula != "" {
			t.Errorf("%s has the formula %q: %v", cell, formula, err)
		}
	}
}
