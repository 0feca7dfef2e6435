package decision

// shelfShares lists every way to share the shelf among the sets: how many of the
// spares of its part each may use. Where there are enough for all, that is
// one way.
func (m *menu) shelfShares() [][]int {
	ways := [][]int{make([]int, len(m.sets))}
	done := map[string]bool{}
	for _, s := range m.sets {
		if done[s.Part] {
			continue
		}
		done[s.Part] = true
		var users, wants []int
		total := 0
		for i, other := range m.sets {
			if other.Part != s.Part {
				continue
			}
			most := 0
			for _, op := range m.options[i] {
				if op.ruledOut == "" {
					most = max(most, op.Shelf)
				}
			}
			users, wants = append(users, i), append(wants, most)
			total += most
		}
		var next [][]int
		for _, split := range splits(wants, min(s.Shelf, total)) {
			for _, way := range ways {
				way = append([]int(nil), way...)
				for k, i := range users {
					way[i] = split[k]
				}
				next = append(next, way)
			}
		}
		ways = next
	}
	return ways
}

// splits lists every way to hand out n things, to each no more than it wants.
func splits(wants []int, n int) [][]int {
	if len(wants) == 0 {
		if n == 0 {
			return [][]int{nil}
		}
		return nil
	}
	var out [][]int
	for first := min(n, wants[0]); first >= 0; first-- {
		for _, rest := range splits(wants[1:], n-first) {
			out = append(out, append([]int{first}, rest...))
		}
	}
	return out
}
