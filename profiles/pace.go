package profiles

import (
	"strconv"
	"strings"
)

// Pace is the share of grip that a leg's pace stands for: one of the model's
// words, or a share such as "80 %". It is 0 for no pace, and for a word that
// validation would have refused.
func (m Model) Pace(pace string) float64 {
	if share, ok := m.Paces[pace]; ok {
		return float64(share)
	}
	percent, err := strconv.ParseFloat(strings.TrimSpace(strings.TrimSuffix(pace, "%")), 64)
	if err != nil {
		return 0
	}
	return percent / 100
}
