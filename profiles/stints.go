package profiles

import (
	"math"
	"slices"

	"example.com/tripwear/profiles/logbook"
)

// Stint is a part's time at a place, from when it went on to when it came off.
// A part that lay aside meanwhile has several.
type Stint struct {
	Part   string
	Life   int     // the part's own: that of the same part bought again is another
	From   float64 // m of odometer
	To     float64 // +Inf for the one on the car
	First  int     // rows of the log that are of it: from the first up to the last
	Last   int
	Logged bool    // the logbook put it on new; otherwise it is car.yaml's
	Back   bool    // it lay aside before
	Kept   bool    // it lay aside after
	Entry  *Fitted // car.yaml's; empty where the logbook put it on
}

// Stints lists the parts of a kind that were on at a place, in order.
func (f *Folder) Stints(k Kind, place string) []Stint {
	start := Folder{Parts: f.Parts, Car: f.AsWritten()}
	lives := start.held(k, place) // the one on first
	if len(lives) == 0 || !slices.Contains(lives[0].At, place) {
		return nil
	}
	var ids []string // part by life
	for _, e := range lives {
		ids = append(ids, e.Part)
	}
	own := 0
	if len(lives) > 1 {
		own = f.before(k, place, ids)
	}
	ofCar := func(life int) Stint {
		return Stint{Part: ids[life], Life: life, From: float64(lives[life].Since.Odometer), Entry: lives[life]}
	}
	first := ofCar(own)
	var all []Stint
	placed := false
	put := func(row int) {
		first.First = row
		all, placed = append(all, first), true
	}
	for row, e := range f.Log {
		at := float64(e.Odometer)
		if !placed && (at > first.From || e.What == logbook.Fitted) {
			put(row)
		}
		if !slices.Contains(e.At(), place) || !e.Replaces() && e.What != logbook.Fitted || f.KindReplaced(e) != k {
			continue
		}
		last := len(all) - 1
		switch {
		case e.What == logbook.Fitted:
			life := lastOf(ids, e.Text)
			if life < 0 || all[last].Life == life {
				continue
			}
			s := Stint{Part: e.Text, Life: life, From: at, First: row + 1, Back: true, Logged: life >= len(lives), Entry: &Fitted{}}
			if life < len(lives) {
				s.Entry = lives[life]
			}
			s.From = max(s.From, all[last].From)
			all[last].Kept = true
			all = append(all, s)
		case !placed && at == first.From:
			// the replacement that car.yaml has
		default:
			s := Stint{Part: e.Text, Life: len(ids), From: at, First: row + 1, Logged: true, Entry: &Fitted{}}
			if s.Part == "" {
				s.Part = first.Part
			}
			ids = append(ids, s.Part)
			all = append(all, s)
		}
	}
	if !placed {
		put(len(f.Log))
	}
	for i := range all {
		all[i].To, all[i].Last = math.Inf(1), len(f.Log)
		if i+1 < len(all) {
			all[i].To, all[i].Last = all[i+1].From, all[i+1].First
			if all[i+1].Logged || all[i+1].Back {
				all[i].Last-- // without the row that put the next one on
			}
		}
	}
	return all
}

// before is the life that was on before any row: of several that swap not the one
// that the first row puts on, where car.yaml has that on already.
func (f *Folder) before(k Kind, place string, ids []string) int {
	for _, e := range f.Log {
		if e.What == logbook.Fitted && slices.Contains(e.At(), place) && f.KindReplaced(e) == k {
			if e.Odometer <= f.Car.Written && e.Text == ids[0] {
				return 1
			}
			break
		}
	}
	return 0
}

func lastOf(ids []string, id string) int {
	for i := len(ids) - 1; i >= 0; i-- {
		if ids[i] == id {
			return i
		}
	}
	return -1
}

// ofAnother says whether a row of the log is of another part than one that swaps
// with it at a place: the one that it names, or else the one that was on.
func ofAnother(e logbook.Entry, row int, stints []Stint, part string) bool {
	if e.Part != "" {
		return e.Part != part
	}
	i := slices.IndexFunc(stints, func(s Stint) bool { return s.First <= row && row < s.Last })
	return i >= 0 && stints[i].Part != part
}
