package kind

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/logbook"
)

// Findings are what an eye or a hand may find on a kind: one row of the
// logbook, as the form asks for it.
type Findings struct {
	Ask
	List  []Finding                // the logbook's words in its order, from good to bad
	Where func(profiles.Part) bool // parts of which it says anything; nil for all
}

// Finding is something that may be found, and what follows from it. Common
// practice, no source, unless a kind says otherwise.
type Finding struct {
	Word    logbook.Finding
	Text    string                               // said of it after its place, or with a %s for it
	Silent  string                               // why nothing is said of it
	Circuit bool                                 // it forbids circuits, and is watched on the road
	Forbids bool                                 // nobody drives on it as it is
	Final   bool                                 // and a new part alone does not cure it
	Watched bool                                 // it wants watching, whatever the forecast says
	Ended   bool                                 // the part's life is over for what learns from its history
	Lower   func(p Point, level float64) float64 // the level it leaves at most; nil for the forecast's
}

// Verdict is what was found at a place.
type Verdict struct {
	Text                    string
	Forbids, Final, Watched bool
	Lower                   func(p Point, level float64) float64
}

// Inspect is what is known of the state of a part at a place, beside its
// readings.
func (k *Kind) Inspect(a At) []Verdict {
	var out []Verdict
	for _, f := range k.Findings {
		x, _ := k.Find(f.Row, a.Entry.Finding(f.Row, a.Place))
		if x.Text != "" && (f.Where == nil || f.Where(a.Part)) {
			out = append(out, x.at(a).by(a.Entry.Source(f.Row, a.Place, "")))
		}
	}
	if k.State != nil {
		out = append(out, k.State(a)...)
	}
	out = append(out, k.pastLimit(a)...)
	if e, ok := a.Folder.RepairedSince(k.ID, a.Place); ok && k.Replaced {
		out = append(out, Verdict{Watched: true, Text: fmt.Sprintf("%s repaired on %s: whether that cured it only driving tells", a.Place, e.Date.Format("2 Jan 2006"))})
	}
	return out
}

// by has what forbids driving name where it is written.
func (v Verdict) by(source string) Verdict {
	if v.Forbids && source != "" {
		v.Text += " (" + source + ")"
	}
	return v
}

// pastLimit is what was read past its limit, which no forecast needs to say.
func (k *Kind) pastLimit(a At) []Verdict {
	var out []Verdict
	for _, p := range k.Points(a) {
		level := p.New
		switch {
		case p.Read != nil:
			level = *p.Read
		case p.Used != nil && !k.Lifetime:
			level = p.New - *p.Used
		}
		if level > p.Limit || p.Read == nil && (p.Used == nil || k.Lifetime) {
			continue
		}
		was, limit, word := p.Measure.Info().Level.BothUnder(level, p.Limit), p.Measure.Info().Level.Both(p.Limit), "past"
		if was == limit {
			word = "at"
		}
		v := forbidden(a.Place, Verdict{Text: strings.TrimSpace(p.Zone+" ") + fmt.Sprintf(" %s is %s its limit of %s now", was, word, limit)})
		v.Text = strings.Replace(v.Text, ":  ", ": ", 1)
		out = append(out, v.by(a.Entry.Source(p.What, a.Place, p.Zone)))
		break // one of a place says it
	}
	return out
}

// Looked says whether an eye or a hand has told of a part, and whether what it
// told spoke for the part, though something worse was found since.
func (k *Kind) Looked(a At) (told, good bool) {
	for _, f := range k.Findings {
		word := a.Entry.Finding(f.Row, a.Place)
		told = told || word != ""
		good = good || a.Folder.Found(a.Entry, a.Place, func(e logbook.Entry) bool {
			return e.What == f.Row && k.SpeaksFor(f.Row, logbook.Finding(e.Text))
		}) || k.SpeaksFor(f.Row, word)
	}
	return told, good
}

// SpeaksFor says whether a word in a row of the logbook is the best that may be
// found on the kind. Any other may only take life away: the part is at least as
// bad as it says, and no better than the forecast without it, nor does it teach
// that such parts last.
func (k *Kind) SpeaksFor(row logbook.What, word logbook.Finding) bool {
	return slices.ContainsFunc(k.Findings, func(f Findings) bool { return f.Row == row && f.List[0].Word == word })
}

// Find is what a word in a row of the logbook means on the kind, if it is one
// of its findings.
func (k *Kind) Find(row logbook.What, word logbook.Finding) (Finding, bool) {
	for _, f := range k.Findings {
		for _, x := range f.List {
			if f.Row == row && x.Word == word {
				return x, true
			}
		}
	}
	return Finding{}, false
}

// Forbidding are the words of a row that forbid to drive.
func Forbidding(row logbook.What) (words []logbook.Finding) {
	for _, k := range All {
		for _, f := range k.Findings {
			for _, x := range f.List {
				if f.Row == row && x.Forbids {
					words = append(words, x.Word)
				}
			}
		}
	}
	return words
}

const noCircuit = ": no circuit on it"

// CircuitOnly says whether what was found forbids circuits and no more, by how it
// is told.
func CircuitOnly(found string) bool { return strings.HasSuffix(found, noCircuit) }

func (x Finding) at(a At) Verdict {
	v := Verdict{Text: x.Text, Forbids: x.Forbids, Final: x.Final, Watched: x.Watched, Lower: x.Lower}
	switch {
	case x.Forbids:
		return forbidden(a.Place, v)
	case x.Circuit && a.Circuit:
		v.Text = strings.TrimPrefix(fmt.Sprintf(x.Text, a.Place), a.Place+": ") + noCircuit
		return forbidden(a.Place, v)
	}
	v.Text = fmt.Sprintf(x.Text, a.Place)
	return v
}

// forbidden takes a place to the end of its life, whatever the forecast says.
func forbidden(place string, v Verdict) Verdict {
	further := v.Lower
	v.Text, v.Forbids, v.Lower = place+": "+v.Text, true, func(p Point, level float64) float64 {
		level = toLimit(p, level)
		if further != nil {
			level = further(p, level)
		}
		return level
	}
	return v
}

func toLimit(p Point, level float64) float64 {
	if p.Also {
		return level
	}
	return math.Min(level, p.Limit)
}

func toMargin(p Point, level float64) float64 { return math.Min(level, p.Margin) }
