package projection

// Finish projects a set as the car stands.
func (s *Set) Finish(w *Worker, legs int) {
	asIs := w.Project(s, 0)
	for i := range s.Levels {
		s.Levels[i].After = asIs.Points[i]
		s.Points = append(s.Points, s.Levels[i].Point)
	}
	s.After, s.First = asIs.set, asIs.first
	s.RoadSpread, s.CircuitSpread, s.SummarySpread = s.Road, s.Circuit, s.Summary
	s.Used = make([]float64, legs)
	first := s.Levels[s.First]
	for j, taken := range first.Loss {
		if s.Apart {
			taken = 0
		}
		s.Used[j] = taken / (first.New - first.Limit)
		if taken > 0 && (s.Most < 0 || taken > first.Loss[s.Most]) {
			s.Most = j
		}
	}
}
