package screen_test

import (
	"bytes"
	"strings"
	"testing"
	"unicode/utf8"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/screen"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// TestStates: in every state the screen begins with the verdict, holds every order
// with its day and price, each circuit day, the caution, and is no longer or wider
// than it may be.
func TestStates(t *testing.T) {
	entry := func(f *profiles.Folder, part string) *profiles.Fitted {
		for i := range f.Car.Fitted {
			if f.Car.Fitted[i].Part == part {
				return &f.Car.Fitted[i]
			}
		}
		t.Fatal(part)
		return nil
	}
	for _, c := range []struct {
		demo, verdict string
		change        func(*profiles.Folder)
		says          []string
	}{
		{"juniper", plan.YesOnce, func(*profiles.Folder) {}, []string{"Skipped: ", "spare goes on", "spare front pads go on", "Weak spot  front tires"}},
		{"fjord", plan.Yes, func(*profiles.Folder) {}, []string{"EUR", "Fri 18 Jun"}},
		{"juniper", plan.No, func(f *profiles.Folder) {
			entry(f, "rotors-front").Face = map[string]logbook.Finding{"RF": logbook.Edge}
		}, []string{"Found ", "not even to the shop", "Smallest change", "Then, and only then", "none is on"}},
		{"juniper", plan.CantSay, func(f *profiles.Folder) { entry(f, "tires-front").Tread = nil }, []string{"Measure first", "it decides $380 by", "prepare for the worse"}},
	} {
		f, outing := randomcar.Demo(t, c.demo)
		c.change(f)
		o := planner.Options{Draws: 1000}
		p, err := planner.Make(f, outing, o)
		if err != nil {
			t.Fatal(err)
		}
		planner.Safer(p, f, outing, o)
		for width, most := range map[int]int{42: 40, 60: 36, 80: 30} {
			var b bytes.Buffer
			v := page.View{Width: width}
			if c.demo == "fjord" {
				v.Units = 1
			}
			if err := screen.Text(&b, p, v); err != nil {
				t.Fatal(err)
			}
			lines := strings.Split(strings.TrimSuffix(b.String(), "\n"), "\n")
			if len(lines) > most {
				t.Errorf("%s, %d columns: %d lines\n%s", c.verdict, width, len(lines), b.String())
			}
			for _, l := range lines {
				if n := utf8.RuneCountInString(l); n > width {
					t.Errorf("%d columns of %d: %s", n, width, l)
				}
			}
			text := strings.Join(strings.Fields(b.String()), " ")
			want := []string{p.Headline(), "inspect before every session"}
			for _, i := range p.Answer.Orders {
				if it := p.Shopping[i]; !it.OrderBy.IsZero() {
					want = append(want, v.Day(it.OrderBy), page.Money(it.Price, p.Currency))
				}
			}
			if width == 80 {
				want = append(want, c.says...)
			}
			for _, w := range want {
				if !strings.Contains(text, strings.Join(strings.Fields(w), " ")) {
					t.Errorf("%s, %d columns, lacks %q:\n%s", c.verdict, width, w, b.String())
				}
			}
			if p.Verdict != c.verdict || !strings.HasPrefix(strings.Split(b.String(), "\n\n")[1], c.verdict) {
				t.Errorf("%s: %s", c.verdict, b.String())
			}
		}
	}
}
