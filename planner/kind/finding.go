package kind

import (
	"fmt"
	"math"
	"slices"

	"example.com/tripwear/profiles/logbook"
)

// Finding is something an eye or a hand may find, and what follows from it.
// Common practice, no source, unless a kind says otherwise.
type Finding struct {
	Word    logbook.Finding
	Text    string                               // what is said of it, with a %s for the place unless it forbids
	Forbids bool                                 // nobody drives on it as it is
	Final   bool                                 // and a new part alone does not cure it
	Watched bool                                 // it wants watching, whatever the forecast says
	Ended   bool                                 // the part's life is over for what learns from its history
	Lower   func(p Point, level float64) float64 // the level it leaves at most; nil for the forecast's
}

// Verdict is a finding at a place.
type Verdict struct {
	Text                    string
	Forbids, Final, Watched bool
	Lower                   func(p Point, level float64) float64
}

// Findings are what may be found on a kind, and the rows that tell it.
type Findings struct {
	Row  logbook.What
	List []Finding
}

// at is the verdict of a word found at a place; none where it is empty or has
// no text.
func (f Findings) at(place string, word logbook.Finding) []Verdict {
	for _, x := range f.List {
		if x.Word == word && x.Text != "" {
			return []Verdict{x.at(place)}
		}
	}
	return nil
}

// Ends says whether a finding ends a part's life.
func (f *Findings) Ends(word logbook.Finding) bool {
	return slices.ContainsFunc(f.List, func(x Finding) bool { return x.Word == word && x.Ended })
}

// Forbidding are the words of a row that forbid to drive.
func Forbidding(row logbook.What) (words []logbook.Finding) {
	for _, f := range []Findings{tireFindings, padFindings, rotorFindings, hubFindings, pedalFindings} {
		for _, x := range f.List {
			if f.Row == row && x.Forbids {
				words = append(words, x.Word)
			}
		}
	}
	return words
}

func (x Finding) at(place string) Verdict {
	v := Verdict{Text: x.Text, Forbids: x.Forbids, Final: x.Final, Watched: x.Watched, Lower: x.Lower}
	if x.Forbids {
		return forbidden(place, v)
	}
	v.Text = fmt.Sprintf(x.Text, place)
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
