package report_test

import (
	"bytes"
	"encoding/json"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles/quantity"
)

func circuit(t *testing.T, id string, d circuits.Drive) *plan.Circuit {
	t.Helper()
	c, err := circuits.Describe(folder(t, "juniper", nil), id, d)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// Every line fits 80 columns, in both units, drawn either way.
func TestCircuitFits(t *testing.T) {
	for _, id := range []string{"heron-flats", "quarry-ridge"} {
		c := circuit(t, id, circuits.Drive{Direction: circuits.Reverse, Wet: true})
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			for _, plain := range []bool{true, false} {
				var b bytes.Buffer
				if err := report.Circuit(&b, c, report.CircuitOptions{View: report.View{Units: units}, Plain: plain}); err != nil {
					t.Fatal(err)
				}
				for line := range strings.Lines(b.String()) {
					if n := utf8.RuneCountInString(strings.TrimRight(line, "\n")); n > 80 {
						t.Errorf("%d columns: %s", n, line)
					}
					if plain && len(line) != utf8.RuneCountInString(line) {
						t.Errorf("not plain: %s", line)
					}
				}
			}
		}
	}
}

// The sketch shows the start and the number of every turn, whole.
func TestSketch(t *testing.T) {
	for _, plain := range []bool{true, false} {
		var b bytes.Buffer
		if err := report.Circuit(&b, circuit(t, "heron-flats", circuits.Drive{}), report.CircuitOptions{Plain: plain}); err != nil {
			t.Fatal(err)
		}
		_, text, _ := strings.Cut(b.String(), "FROM ABOVE\n")
		drawing, _, _ := strings.Cut(text, "\n\n")
		for _, mark := range []string{"S", "1", "2", "3", "4", "5", "6", "7", "8", "9", ">"} {
			if strings.Count(drawing, mark) != 1 {
				t.Errorf("plain %v: %q stands %d times in\n%s", plain, mark, strings.Count(drawing, mark), drawing)
			}
		}
		if n := strings.Count(drawing, "\n"); n < 10 || n > 18 {
			t.Errorf("plain %v: %d lines", plain, n)
		}
	}
}

func TestCircuitJSON(t *testing.T) {
	var b bytes.Buffer
	if err := report.JSON(&b, circuit(t, "heron-flats", circuits.Drive{})); err != nil {
		t.Fatal(err)
	}
	var got struct {
		Name      string
		Meters    float64 `json:"metres"`
		LeftShare float64 `json:"left_share"`
		Turns     []struct{ Angle, Radius, Apex float64 }
		Wear      []struct {
			ID    string
			Share float64
		}
	}
	if err := json.Unmarshal(b.Bytes(), &got); err != nil {
		t.Fatal(err)
	}
	if got.Name != "Heron Flats" || got.Meters < 3499 || got.LeftShare < 0.74 || len(got.Turns) != 9 || len(got.Wear) != 11 || got.Turns[0].Radius != 60 {
		t.Errorf("%+v", got)
	}
}
