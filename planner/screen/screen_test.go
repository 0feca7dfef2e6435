package screen_test

import (
	"bytes"
	"fmt"
	"regexp"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"pgregory.net/rapid"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/screen"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
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
		{"juniper", plan.YesOnce, func(*profiles.Folder) {}, []string{"Skipped: ", "spare goes on", "Weak spot  front tires"}},
		{"fjord", plan.Yes, func(*profiles.Folder) {}, []string{"EUR", "Fri 18 Jun"}},
		{"juniper", plan.No, func(f *profiles.Folder) {
			entry(f, "rotors-front").Face = map[string]logbook.Finding{"RF": logbook.Edge}
		}, []string{"not even to the shop", "Smallest change", "Then, and only then", "none is on"}},
		{"juniper", plan.No, func(f *profiles.Folder) {
			entry(f, "rotors-front").Face = map[string]logbook.Finding{"RF": logbook.Catches}
			part := f.Parts["rotors-front"]
			part.Fit = []string{"shop"}
			f.Parts["rotors-front"] = part
		}, []string{"no circuit on it.\nSmallest change"}},
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
		for _, width := range widths {
			var b bytes.Buffer
			v := page.View{Width: width}
			if c.demo == "fjord" {
				v.Units = 1
			}
			if err := screen.Text(&b, p, v); err != nil {
				t.Fatal(err)
			}
			if wrong := runsOff(b.String(), width); wrong != "" {
				t.Error(wrong)
			}
			text := strings.Join(strings.Fields(b.String()), " ")
			want := []string{p.Headline(), "inspect before every session"}
			sums := map[string]float64{} // a day's orders may stand together
			anyTime := 0.0               // with the last of them
			for _, i := range p.Answer.Orders {
				if it := p.Shopping[i]; it.OrderBy.IsZero() {
					anyTime += it.ToPay()
				} else {
					sums[v.Day(it.OrderBy)] += it.ToPay()
				}
			}
			for _, i := range p.Answer.Orders {
				if it := p.Shopping[i]; !it.OrderBy.IsZero() {
					day := v.Day(it.OrderBy)
					want = append(want, day)
					if !slices.ContainsFunc([]float64{it.Price, sums[day] + anyTime}, func(sum float64) bool { return strings.Contains(text, page.Money(sum, p.Currency)) }) {
						want = append(want, page.Money(sums[day], p.Currency))
					}
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

var widths = []int{40, 42, 60, 80}

// runsOff says whether a screen has more lines or columns than there are.
func runsOff(text string, width int) string {
	lines := strings.Split(strings.TrimSuffix(text, "\n"), "\n")
	most := screen.Most
	if width < 42 {
		most += 3
	}
	if len(lines) > most {
		return fmt.Sprintf("%d lines at %d columns\n%s", len(lines), width, text)
	}
	for _, l := range lines {
		if n := utf8.RuneCountInString(l); n > width {
			return fmt.Sprintf("%d columns of %d: %s", n, width, l)
		}
	}
	return ""
}

// TestAnyOwner: whatever a car and its trip, the answer is one screen, with its
// verdict and its caution.
func TestAnyOwner(t *testing.T) {
	randomcar.Check(t, 12, func(t *rapid.T) {
		files, err := randomcar.Draw(t, 10).Files()
		if err != nil {
			t.Fatal(err)
		}
		f, err := profiles.Load(files)
		if err != nil {
			t.Fatal(err)
		}
		outing, o := f.Trips[randomcar.Trip], planner.Options{Draws: 200}
		p, err := planner.Make(f, outing, o)
		if err != nil {
			t.Fatal(err)
		}
		planner.Safer(p, f, outing, o)
		for _, width := range widths {
			for units := range quantity.Metric + 1 {
				var b bytes.Buffer
				if err := screen.Text(&b, p, page.View{Width: width, Units: units}); err != nil {
					t.Fatal(err)
				}
				if wrong := runsOff(b.String(), width); wrong != "" {
					t.Fatal(wrong)
				}
				text := strings.Join(strings.Fields(b.String()), " ")
				for _, w := range []string{p.Headline(), "inspect before every session", "--all"} {
					if !strings.Contains(text, w) {
						t.Fatalf("%d columns, lacks %q:\n%s", width, w, b.String())
					}
				}
			}
		}
	})
}

// At any width the first screen has the demo's circuit days.
func TestDaysStay(t *testing.T) {
	f, outing := randomcar.Demo(t, "juniper")
	p, err := planner.Make(f, outing, planner.Options{Draws: 500})
	if err != nil {
		t.Fatal(err)
	}
	for width := 40; width <= 80; width++ {
		var out bytes.Buffer
		if err := screen.Text(&out, p, page.View{Width: width}); err != nil {
			t.Fatal(err)
		}
		if days := regexp.MustCompile(`(?m)^  (Sat|Sun|Wed) `).FindAllString(out.String(), -1); len(days) != 3 {
			t.Errorf("at %d columns %d of 3 days:\n%s", width, len(days), out.String())
		}
	}
}
