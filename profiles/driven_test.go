package profiles

import (
	"fmt"
	"slices"
	"testing"

	"example.com/tripwear/profiles/logbook"
)

// Pages of one drive add the legs that the logbook lacks, in whatever order
// they come; another drive of the trip is left alone. The demo's legs are roads
// of 1010, 85, 560 and 1245 miles; legs 2, 3 and 7 are circuits, 5 a stop.
func TestDriven(t *testing.T) {
	page := func(leg int, at string) logbook.Entry {
		e, faults := logbook.Parse(logbook.Row{"date": "2027-05-20", "odometer": at, "what": "trip driven", "value": fmt.Sprintf("spring 1-%d", leg)})
		if len(faults) > 0 {
			t.Fatalf("%+v", faults)
		}
		return e
	}
	for _, c := range []struct {
		name, rows string
		pages      []logbook.Entry
		want       []string
	}{
		{"nothing yet", "", []logbook.Entry{page(2, "144260 mi"), page(4, "144400 mi")}, []string{"trip driven spring 1-2", "trip driven spring 3-4"}},
		{"on from there", "2027-05-15,144260 mi,trip driven,,,spring 1-2,,\n", []logbook.Entry{page(4, "144400 mi")}, []string{"trip driven spring 3-4"}},
		{"both again", "2027-05-15,144260 mi,trip driven,,,spring 1-2,,\n2027-05-16,144400 mi,trip driven,,,spring 3-4,,\n", []logbook.Entry{page(2, "144260 mi"), page(4, "144400 mi")}, nil},
		{"an earlier page later", "2027-05-16,144400 mi,trip driven,,,spring 1-4,,\n", []logbook.Entry{page(2, "144260 mi"), page(4, "144400 mi")},
			[]string{"trip driven spring 1-2", "taken back 1", "trip driven spring 3-4"}},
		{"a leg of its own", "2027-05-15,144260 mi,trip driven,,,spring 2,,\n", []logbook.Entry{page(1, "144250 mi"), page(4, "144400 mi")}, []string{"trip driven spring 1-1", "trip driven spring 3-4"}},
		{"driven the year before", "2026-05-16,140300 mi,trip driven,,,spring 1-4,,\n", []logbook.Entry{page(2, "144260 mi")}, []string{"trip driven spring 1-2"}},
		{"all of it", "2027-05-22,146300 mi,trip driven,,,spring,,\n", []logbook.Entry{page(8, "146300 mi")}, nil},
		{"all of it, then a page", "2027-05-22,146300 mi,trip driven,,,spring,,\n", []logbook.Entry{page(4, "144400 mi")}, []string{"trip driven spring 1-4", "taken back 1", "trip driven spring 5-8"}},
	} {
		f, err := logged(t, c.rows)
		if err != nil {
			t.Fatal(c.name, err)
		}
		var got []string
		rows := f.Driven(c.pages)
		for _, e := range rows {
			got = append(got, string(e.What)+" "+e.Written)
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
		if _, err := judge(f, rows...); err != nil {
			t.Errorf("%s: %v", c.name, err)
		}
	}
}
