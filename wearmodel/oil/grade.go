package oil

import (
	"strings"
)

// Winter is a winter grade of SAE J300 (2015 table, from memory).
type Winter struct {
	Name     string
	Crank    float64 // mPa s, most by ASTM D5293
	CrankAt  float64 // deg C
	Pump     float64 // mPa s, most by ASTM D4684
	PumpAt   float64 // deg C
	LeastKV  float64 // mm2/s at 100 deg C
	hotClass bool    // which of the two high-shear limits a 40 grade has with it
}

// Summer is a high-temperature grade of SAE J300 (2015 table, from memory).
type Summer struct {
	Name     string
	From     float64 // mm2/s at 100 deg C, included
	To       float64 // mm2/s, not included
	HighTemp float64 // mPa s, least at 150 deg C and high shear
}

// winters and summers are the grades from thin to thick. Summer grades overlap
// between 5.0 and 8.2 mm2/s. A 40 grade of a 15W or heavier oil, or without a
// winter grade, must reach 3.7 mPa s: see HighTemp.
var (
	winters = []Winter{
		{"0W", 6200, -35, 60000, -40, 3.8, false},
		{"5W", 6600, -30, 60000, -35, 3.8, false},
		{"10W", 7000, -25, 60000, -30, 4.1, false},
		{"15W", 7000, -20, 60000, -25, 5.6, true},
		{"20W", 9500, -15, 60000, -20, 5.6, true},
		{"25W", 13000, -10, 60000, -15, 9.3, true},
	}
	summers = []Summer{
		{"8", 4.0, 6.1, 1.7},
		{"12", 5.0, 7.1, 2.0},
		{"16", 6.1, 8.2, 2.3},
		{"20", 6.9, 9.3, 2.6},
		{"30", 9.3, 12.5, 2.9},
		{"40", 12.5, 16.3, 3.5},
		{"50", 16.3, 21.9, 3.7},
		{"60", 21.9, 26.1, 3.7},
	}
)

// heavyForty is the high-shear limit of a 40 grade that is not a 0W, 5W or 10W.
const heavyForty = 3.7 // mPa s

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

// HighTemp is the least viscosity (mPa s) at 150 deg C and high shear that a
// new oil of the grade must have; 0 for a winter grade alone.
func (g Grade) HighTemp() float64 {
	if g.Summer.Name == "40" && (g.Winter.Name == "" || g.Winter.hotClass) {
		return heavyForty
	}
	return g.Summer.HighTemp
}
