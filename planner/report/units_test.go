package report_test

import (
	"regexp"
	"strings"
	"testing"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles/quantity"
)

// TestOneSystem: a plan in US units speaks of no liters, kilometers, kilograms
// or degrees Celsius, one in metric units of no quarts, miles, pounds or degrees
// Fahrenheit. What a file says word by word is not a measure of ours, nor what a
// command line says of the odometer, which is as its dial shows it.
func TestOneSystem(t *testing.T) {
	for units, foreign := range map[quantity.System]string{
		quantity.US:     `\d (L|km|m3|kg|C|K|bar|km/h)\b|liter|kilo`,
		quantity.Metric: `\d (qt|gal|mi|lb|F|psi|mph|cu ft|ft)\b|/32 in|quart|gallon|mile`,
	} {
		f, trip := season(t)
		p, err := planner.Make(f, trip, few)
		if err != nil {
			t.Fatal(err)
		}
		p.Assumptions = nil
		var b strings.Builder
		if err := report.Text(&b, p, report.Options{View: report.View{Units: units}, All: true}); err != nil {
			t.Fatal(err)
		}
		said := regexp.MustCompile(`--odometer\s+"[^"]*"`).ReplaceAllString(b.String(), "")
		for _, line := range strings.Split(said, "\n") {
			if regexp.MustCompile(foreign).MatchString(line) {
				t.Errorf("%v: %s", units, line)
			}
		}
	}
}
