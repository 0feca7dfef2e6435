package trace

import "math"

// paced is the speed at each node by the way along the line: over about a
// second from fix to fix, the mean of the slownesses of all that pass the
// node. A fix too far on makes one interval longer and passes more nodes with
// a slowness too small, by just as much: noise does not bias the mean, as it
// does that of distances between fixes, which it can only lengthen. Where
// nothing passes, the speed stays.
func (f *fitted) paced() []float64 {
	n := len(f.x)
	gone := make([]float64, n+1)
	for i, l := range f.length {
		gone[i+1] = gone[i] + l
	}
	whole := gone[n]
	at := make([]float64, len(f.places))
	for k, p := range f.places {
		i, u, _ := f.locate(p.x, p.y, p.segment)
		at[k] = gone[i] + float64(u*f.length[i])
		f.places[k].segment = i
	}
	const over = 1.0 // s
	// Differences of the sums, from node to node, and once more round.
	slow, count := make([]float64, 2*n+1), make([]float64, 2*n+1)
	j := 0
	for k := 1; k < len(f.places); k++ {
		b := &f.places[k]
		for f.places[j].lap != b.lap {
			j++
		}
		step := b.t - f.places[k-1].t
		for j+1 < k && math.Abs(b.t-f.places[j+1].t-over) <= math.Abs(b.t-f.places[j].t-over) {
			j++
		}
		a := &f.places[j]
		way, dt := at[k]-at[j], b.t-a.t
		from, to := a.segment+1, b.segment+1
		if way < 0 {
			way, to = way+whole, to+n
		}
		// The first of a lap have no fix a second before them.
		early := dt < float64(step*(max(1, math.Round(over/step))-0.5))
		if early || dt > 2*over*slowestRate || way <= 0 || way > whole/2 {
			continue
		}
		slow[from] += dt / way
		slow[to] -= dt / way
		count[from]++
		count[to]--
	}
	for i := 1; i <= 2*n; i++ {
		slow[i] += slow[i-1]
		count[i] += count[i-1]
	}
	out := make([]float64, n)
	for i := range out {
		out[i] = f.speed[i]
		if c, s := count[i]+count[i+n], slow[i]+slow[i+n]; c > 0.5 {
			out[i] = max(leastSpeed, c/s)
		}
	}
	return out
}
