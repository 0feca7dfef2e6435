package oil

// A metal is rising that comes at more than rises times its earlier mean rate,
// and of which there are more than leastRise over the new oil: up to that, a
// laboratory's scatter is as large. Engineering choice.
const (
	rises     = 2.0
	leastRise = 5.0 // ppm
)

// Trend is a metal's rate in this report against the earlier ones.
type Trend struct {
	Figure  Figure  `json:"figure"`
	Before  float64 `json:"before"` // ppm per equivalent m, mean of the earlier reports by distance
	Now     float64 `json:"now"`
	Reports int     `json:"reports"` // earlier reports with the figure
	Rising  bool    `json:"rising"`
	Steady  float64 `json:"steady"` // equivalent m of the longest earlier fill shorter than this one; 0 where there is none
}

// trends compares the wear metals with the engine's earlier reports. The new
// oil's share counts as the same in all of them.
func trends(used Sample, fresh *Sample, earlier []Sample) []Trend {
	var out []Trend
	for _, f := range metals {
		v, ok := used.Values[f]
		if !ok || used.Equivalent <= 0 {
			continue
		}
		clean := 0.0
		if fresh != nil {
			clean = fresh.Values[f]
		}
		t := Trend{Figure: f, Now: max(0, v-clean) / used.Equivalent}
		mass, distance := 0.0, 0.0
		for _, s := range earlier {
			if before, ok := s.Values[f]; ok && s.Equivalent > 0 {
				mass, distance = mass+max(0, before-clean), distance+s.Equivalent
				t.Reports++
				if s.Equivalent < used.Equivalent {
					t.Steady = max(t.Steady, s.Equivalent)
				}
			}
		}
		if t.Reports == 0 {
			continue
		}
		t.Before = mass / distance
		t.Rising = t.Before > 0 && t.Now > rises*t.Before && v-clean > leastRise
		out = append(out, t)
	}
	return out
}
