package workbook

import (
	"bytes"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// What was found stands on the Summary, what else was seen on the Decisions.
func TestSeen(t *testing.T) {
	files, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	for i := range f.Car.Fitted {
		switch e := &f.Car.Fitted[i]; e.Part {
		case "rotors-front":
			e.Face = map[string]logbook.Finding{"LF": "edge", "RF": "checks"}
		case "hub-rear":
			e.Feel = map[string]logbook.Finding{"LR": "play"}
		}
	}
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	p, err := planner.Make(f, trip, planner.Options{Draws: 200})
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := Write(&out, p, quantity.US); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenReader(&out)
	if err != nil {
		t.Fatal(err)
	}
	for sheet, wants := range map[string][]string{
		"Summary":   {"STOP: front rotors, LF: a crack reaches the edge", "STOP: LR hub bearing, LR: play at 12 and 6"},
		"Card":      {"LF: a crack"},
		"Decisions": {"RF: heat checks that a fingernail does not catch", "the report of 30 Aug 2026 lengthens the interval by 25 %", "leave the camber"},
		"Legs":      {"Rain: what the tread left means in it"},
	} {
		rows, err := book.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		var all strings.Builder
		for _, row := range rows {
			all.WriteString(strings.Join(row, " ") + "\n")
		}
		for _, want := range wants {
			if !strings.Contains(all.String(), want) {
				t.Errorf("%s does not say %q", sheet, want)
			}
		}
	}
}
