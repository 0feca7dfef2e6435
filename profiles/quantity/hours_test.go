package quantity

import (
	"testing"
	"time"
)

func TestHours(t *testing.T) {
	got, err := ParseHours("8:00-17:30 mon-fri, 9-12 Saturday")
	if err != nil || len(got) != 2 {
		t.Fatal(got, err)
	}
	week, sat := got[0], got[1]
	if week.From != 8 || week.To != 17.5 || !week.Days[time.Monday] || !week.Days[time.Friday] || week.Days[time.Saturday] || week.Days[time.Sunday] {
		t.Errorf("%+v", week)
	}
	if sat.From != 9 || sat.To != 12 || sat.Days != [7]bool{time.Saturday: true} {
		t.Errorf("%+v", sat)
	}
	if all, err := ParseHours("7-19"); err != nil || all[0].Days != [7]bool{true, true, true, true, true, true, true} {
		t.Errorf("%+v, %v", all, err)
	}
	if over, err := ParseHours("10-18 sat-mon"); err != nil || over[0].Days != [7]bool{time.Saturday: true, time.Sunday: true, time.Monday: true} {
		t.Errorf("%+v, %v", over, err)
	}
	for _, wrong := range []string{"", "8", "17-8", "8-25", "8-17 xyz", "8-17 mo", "8:70-9", "8-17 mon-", "8-17;9-12"} {
		if got, err := ParseHours(wrong); err == nil {
			t.Errorf("%q is %+v", wrong, got)
		}
	}
}
