package oil

import (
	"strings"
)

// Winter is a winter grade of SAE J300 (2015 table, from memory).
type Winter struct {
	Name    string
	LeastKV float64 // mm2/s at 100 deg C
}

// Summer is a high-temperature grade of SAE J300 (2015 table, from memory).
type Summer struct {
	Name string
	From float64 // mm2/s at 100 deg C, included
	To   float64 // mm2/s, not included
}

// winters and summers are the grades from thin to thick. Summer grades overlap
// between 5.0 and 8.2 mm2/s.
var (
	winters = []Winter{
		{"0W", 3.8},
		{"5W", 3.8},
		{"10W", 4.1},
		{"15W", 5.6},
		{"20W", 5.6},
		{"25W", 9.3},
	}
	summers = []Summer{
		{"8", 4.0, 6.1},
		{"12", 5.0, 7.1},
		{"16", 6.1, 8.2},
		{"20", 6.9, 9.3},
		{"30", 9.3, 12.5},
		{"40", 12.5, 16.3},
		{"50", 16.3, 21.9},
		{"60", 21.9, 26.1},
	}
)

// Grades are the high-temperature grades that a viscosity at 100 deg C (mm2/s)
// falls in: none, one, or two where they overlap.
func Grades(kv100 float64) []string {
	var out []string
	for _, g := range summers {
		if g.From <= kv100 && kv100 < g.To {
			out = append(out, g.Name)
		}
	}
	return out
}

// Grade is a grade as it stands on the bottle: 5W-40, 30 or 10W.
type Grade struct {
	Winter Winter // Name "" where it has none
	Summer Summer // Name "" where it has none
}

// ParseGrade reads a grade, with or without "SAE" before it.
func ParseGrade(s string) (Grade, bool) {
	s = strings.ToUpper(strings.TrimSpace(s))
	s = strings.TrimSpace(strings.TrimPrefix(s, "SAE"))
	winter, summer, both := strings.Cut(s, "-")
	if !both && !strings.HasSuffix(s, "W") {
		winter, summer = "", s
	}
	var g Grade
	ok := winter == "" && !both
	for _, w := range winters {
		if w.Name == winter {
			g.Winter, ok = w, true
		}
	}
	if !ok {
		return Grade{}, false
	}
	for _, h := range summers {
		if h.Name == summer {
			g.Summer = h
		}
	}
	return g, (g.Summer.Name != "" || summer == "" && !both) && g != Grade{}
}

// Holds says whether a viscosity at 100 deg C (mm2/s) is inside the grade.
func (g Grade) Holds(kv100 float64) bool {
	if g.Summer.Name == "" {
		return kv100 >= g.Winter.LeastKV
	}
	return g.Summer.From <= kv100 && kv100 < g.Summer.To && kv100 >= g.Winter.LeastKV
}
