package kind

import (
	"fmt"
	"slices"
	"strings"
	"testing"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// gaps lists what a kind lacks.
func gaps(k *Kind, f *profiles.Folder) []string {
	var out []string
	want := func(ok bool, what string, a ...any) {
		if !ok {
			out = append(out, fmt.Sprintf(what, a...))
		}
	}
	info := k.ID.Info()
	want(len(info.Sets) > 0, "a row in the table of profiles")
	for what, word := range map[string]string{
		"a plural": info.Plural, "a sheet": k.Sheet,
		"a word for its spare": k.Spare, "advice": k.Advice,
	} {
		want(word != "", "%s", what)
	}
	for what, missing := range map[string]bool{
		"Spreads": k.Spreads == nil, "Points": k.Points == nil,
		"Unread": k.Unread == nil, "Buy": k.Buy == nil,
	} {
		want(!missing, "func %s", what)
	}
	for i, m := range k.Measures {
		out = append(out, m.gaps(i == 0)...)
	}
	want(len(k.Measures) > 0, "measures")
	for _, x := range k.Findings {
		out = append(out, x.gaps(k)...)
	}
	for _, r := range info.Readings {
		finds := len(logbook.Findings(r.What)) > 0
		want(!finds || slices.ContainsFunc(k.Findings, func(x Findings) bool { return x.Row == r.What }), "findings of the row %q", r.What)
	}
	want(k.State != nil || len(k.Findings) > 0, "findings, or a func State")
	for _, a := range k.Asks {
		owner, _ := profiles.KindRead(a.Row)
		want(a.What != "" && (owner == k.ID || slices.Contains(logbook.Words(), string(a.Row))), "a question or a row of the logbook for %q", a.Row)
	}
	for i, c := range k.Checks {
		want(c.When != "" && c.Say != nil, "a time or a sentence for check %d", i+1)
		want(c.By != "" && (c.By == ByGauge) == (c.Reads != ""), "a way that fits check %d", i+1)
		for _, m := range []Measure{c.Reads, c.Looks} {
			want(m == "" || slices.ContainsFunc(k.Measures, func(x MeasureInfo) bool { return x.Measure == m }), "the measure %q that check %d reads", m, i+1)
		}
	}
	if k.Caught != nil {
		want(len(k.Checks) > 0, "a check that catches it")
	}
	if k.LaborWith != "" {
		other := Of(k.LaborWith)
		want(other != nil && other.LaborWith == k.ID, "a partner that shares its labor in turn")
	}
	if len(out) > 0 {
		return out // what follows calls its functions
	}
	return k.partGaps(f)
}

// gaps lists what a measure lacks.
func (m MeasureInfo) gaps(first bool) []string {
	var out []string
	for what, missing := range map[string]bool{
		"a word":                          m.Measure == "",
		"a way to show a level":           m.Level == quantity.Shown{},
		"a way to show what a leg takes":  m.Taken == quantity.Shown{},
		"digits":                          m.Digits == 0,
		"what its end is called":          m.End == "",
		"a label with its unit":           !strings.Contains(m.Label, "UNIT"),
		"a note, being the first":         first && m.Note == "",
		"a row of the logbook to read it": m.Length && m.Form.Row == "",
		"a question of the form":          m.Form.Row != "" && m.Form.What == "",
		"a row that is a number":          m.Form.Row != "" && len(logbook.Findings(m.Form.Row)) > 0,
	} {
		if missing {
			out = append(out, fmt.Sprintf("%s of measure %q", what, m.Measure))
		}
	}
	return out
}

// gaps lists what the findings of a row lack.
func (f Findings) gaps(k *Kind) []string {
	var out []string
	want := func(ok bool, what string, a ...any) {
		if !ok {
			out = append(out, fmt.Sprintf(what, a...)+fmt.Sprintf(" of row %q", f.Row))
		}
	}
	owner, known := profiles.KindRead(f.Row)
	want(known && owner == k.ID, "a reading in the table of profiles")
	want(f.What != "" && f.By != "", "a question of the form, or who answers it,")
	var words []logbook.Finding
	for _, x := range f.List {
		words = append(words, x.Word)
		want((x.Text == "") != (x.Silent == ""), "a text, or a reason for none, of %q", x.Word)
		want(x.Text == "" || strings.Contains(x.Text, "%") != x.Forbids, "a place in the text of %q, or one too many,", x.Word)
		want(x.Forbids || !x.Final, "what forbids driving in the final %q", x.Word)
	}
	want(slices.Equal(words, logbook.Findings(f.Row)), "the logbook's words (%v, not %v)", logbook.Findings(f.Row), words)
	return out
}

// partGaps lists what a kind gets wrong of each part there is of it.
func (k *Kind) partGaps(f *profiles.Folder) []string {
	var out []string
	want := func(ok bool, what string, a ...any) {
		if !ok {
			out = append(out, fmt.Sprintf(what, a...))
		}
	}
	info, any, whole := k.ID.Info(), false, map[Measure]bool{}
	for _, part := range f.Parts {
		if part.Kind != k.ID {
			continue
		}
		any = true
		entry := profiles.Fitted{Part: part.ID, At: info.Places()}
		a := At{Folder: f, Part: part, Entry: &entry, Place: info.Places()[0], End: time.Date(2027, 5, 22, 0, 0, 0, 0, time.UTC)}
		bought := k.Buy(part)
		want(bought.Count > 0 && bought.As != "", "a purchase of %s", part.ID)
		want(k.Unread(a) != "", "how an unread %s is known", part.ID)
		var measures []Measure
		for _, p := range k.Points(a) {
			name := fmt.Sprintf("point %q %q of %s", p.Measure, p.Zone, part.ID)
			want(p.Of != nil, "what a leg takes from %s", name)
			if p.New > 0 { // stock parts leave some to the owner
				whole[p.Measure] = true
				want(p.New > p.Limit && p.New >= p.Margin && (k.Lifetime || p.Margin >= p.Limit), "a margin between the limit and new of %s", name)
			}
			want(p.What == p.Measure.Info().Form.Row, "the row of the logbook that the form asks for of %s", name)
			want(p.What == "" || p.Said != "", "how a read level is known of %s", name)
			if !slices.Contains(measures, p.Measure) {
				measures = append(measures, p.Measure)
			}
			if p.Cap != nil {
				young, old := p.Cap(Moment{Age: 1}), p.Cap(Moment{Age: 40000})
				want(young == old || info.Dated, "Dated in the table of profiles: %s ages by the calendar", name)
			}
		}
		var listed []Measure
		for _, m := range k.Measures {
			listed = append(listed, m.Measure)
		}
		want(slices.Equal(measures, listed), "points of its measures (%v, not %v)", listed, measures)
	}
	want(any, "a part in the stock list")
	for _, m := range k.Measures {
		want(!any || whole[m.Measure], "a level when new of measure %q", m.Measure)
	}
	return out
}

func juniper(t *testing.T) *profiles.Folder {
	t.Helper()
	files, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// No kind lacks anything, profiles has the same kinds in the same order, and
// what forbids driving stands once.
func TestKindsAreWhole(t *testing.T) {
	f := juniper(t)
	var here, there []profiles.Kind
	once := map[string]profiles.Kind{}
	for _, k := range All {
		here = append(here, k.ID)
		for _, gap := range gaps(k, f) {
			t.Errorf("%s lacks %s", k.ID, gap)
		}
		var words []string
		for _, m := range k.Measures {
			words = append(words, "measure "+string(m.Measure))
		}
		for _, of := range k.Findings {
			words = append(words, "row "+string(of.Row))
			for _, x := range of.List {
				if x.Forbids {
					words = append(words, "what forbids driving, "+x.Text)
				}
			}
		}
		for _, word := range words {
			if other, twice := once[word]; twice {
				t.Errorf("%s has %q, which %s has too", k.ID, word, other)
			}
			once[word] = k.ID
		}
	}
	for _, info := range profiles.Kinds() {
		there = append(there, info.Kind)
	}
	if !slices.Equal(here, there) {
		t.Errorf("the kinds here are %v, those of profiles %v", here, there)
	}
}

// What a kind lacks is named.
func TestGapsAreNamed(t *testing.T) {
	f := juniper(t)
	for want, spoil := range map[string]func(*Kind){
		"a row in the table of profiles":        func(k *Kind) { k.ID = "boot" },
		"a sheet":                               func(k *Kind) { k.Sheet = "" },
		"a word for its spare":                  func(k *Kind) { k.Spare = "" },
		"advice":                                func(k *Kind) { k.Advice = "" },
		"func Spreads":                          func(k *Kind) { k.Spreads = nil },
		"func Points":                           func(k *Kind) { k.Points = nil },
		"func Unread":                           func(k *Kind) { k.Unread = nil },
		"func Buy":                              func(k *Kind) { k.Buy = nil },
		"measures":                              func(k *Kind) { k.Measures = nil },
		"what its end is called of measure":     func(k *Kind) { k.Measures[0].End = "" },
		"a note, being the first":               func(k *Kind) { k.Measures[0].Note = "" },
		"a way to show a level":                 func(k *Kind) { k.Measures[0].Level = quantity.Shown{} },
		"a row of the logbook to read it":       func(k *Kind) { k.Measures[0].Form = Ask{} },
		"findings of the row":                   func(k *Kind) { k.Findings = nil },
		"the logbook's words":                   func(k *Kind) { k.Findings[0].List = k.Findings[0].List[1:] },
		"a text, or a reason for none":          func(k *Kind) { k.Findings[0].List[0].Text = "" },
		"a place in the text":                   func(k *Kind) { k.Findings[0].List[0].Text = "sound" },
		"a question of the form":                func(k *Kind) { k.Findings[0].What = "" },
		"a reading in the table of profiles":    func(k *Kind) { k.Findings[0].Row = logbook.Hub },
		"a check that catches it":               func(k *Kind) { k.Checks = nil },
		"a time or a sentence for check 1":      func(k *Kind) { k.Checks[0].Say = nil },
		"a way that fits check 1":               func(k *Kind) { k.Checks[0].By = "" },
		"the measure \"pad\" that check 1":      func(k *Kind) { k.Checks[0].Reads = PadLining },
		"a partner that shares its labor":       func(k *Kind) { k.LaborWith = profiles.Pads },
		"a purchase of":                         func(k *Kind) { k.Buy = func(profiles.Part) Purchase { return Purchase{} } },
		"how an unread":                         func(k *Kind) { k.Unread = func(At) string { return "" } },
		"points of its measures":                func(k *Kind) { k.Points = func(At) []Point { return nil } },
		"Dated in the table of profiles":        spoilPoints(func(p *Point) { p.Cap = func(m Moment) float64 { return 1 - m.Age } }),
		"a margin between the limit":            spoilPoints(func(p *Point) { p.Margin = 1 }),
		"what a leg takes from":                 spoilPoints(func(p *Point) { p.Of = nil }),
		"the row of the logbook that the form":  spoilPoints(func(p *Point) { p.What = logbook.Pad }),
		"how a read level is known of point":    spoilPoints(func(p *Point) { p.Said = "" }),
		"a question or a row of the logbook fo": func(k *Kind) { k.Asks = []Ask{{Row: "boots", What: "boots"}} },
	} {
		k := *Tire
		k.Measures, k.Findings, k.Checks = slices.Clone(k.Measures), slices.Clone(k.Findings), slices.Clone(k.Checks)
		k.Findings[0].List = slices.Clone(k.Findings[0].List)
		spoil(&k)
		if got := strings.Join(gaps(&k, f), "\n"); !strings.Contains(got, want) {
			t.Errorf("want %q in\n%s", want, got)
		}
	}
}

// spoilPoints changes every point of a kind.
func spoilPoints(spoil func(*Point)) func(*Kind) {
	return func(k *Kind) {
		points := k.Points
		k.Points = func(a At) []Point {
			out := points(a)
			for i := range out {
				spoil(&out[i])
			}
			return out
		}
	}
}
