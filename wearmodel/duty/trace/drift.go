package trace

import "math"

// How the slow error of a lap is told. Engineering choices.
const (
	knotTime    = 1.0 // s
	firstDrift  = 5.0 // m, one standard deviation at the start of a lap
	leastWander = 1e-3
	mostWander  = 1.0 // m2/s
)

// slow is the slow error of a lap, meters east and north at even times: a
// random walk. Receivers err by meters that last for minutes, and drivers by
// half a meter that lasts for seconds; neither bends a corner, but both make
// laps differ.
type slow struct {
	from float64
	x, y []float64
}

// left is the slow error at a time as meters to the left of a direction.
func (s *slow) left(t float64, dir [2]float64) float64 {
	if len(s.x) == 0 {
		return 0
	}
	at := math.Max(0, math.Min(float64(len(s.x)-1), (t-s.from)/knotTime))
	k := min(int(at), max(0, len(s.x)-2))
	u := at - float64(k)
	j := min(k+1, len(s.x)-1)
	x, y := s.x[k]+float64(u*(s.x[j]-s.x[k])), s.y[k]+float64(u*(s.y[j]-s.y[k]))
	return float64(y*dir[0]) - float64(x*dir[1])
}

// knot is what the sights around a time say of the slow error then.
type knot struct{ xx, xy, yy, x, y float64 }

// add adds how far to the left a sight lies, nx and ny being which way that is.
func (q *knot) add(nx, ny, left, weight float64) {
	q.xx += float64(weight * nx * nx)
	q.xy += float64(weight * nx * ny)
	q.yy += float64(weight * ny * ny)
	q.x += float64(weight * nx * left)
	q.y += float64(weight * ny * left)
}

// solve is the error that the sights together say; 0 where they all look one way.
func (q *knot) solve() (x, y float64) {
	det := float64(q.xx*q.yy) - float64(q.xy*q.xy)
	if !(det > 1e-6*q.xx*q.yy) {
		return 0, 0
	}
	return (float64(q.yy*q.x) - float64(q.xy*q.y)) / det, (float64(q.xx*q.y) - float64(q.xy*q.x)) / det
}

// walk fits the slow error of a lap to its sights, less how far the line moves
// to the left there, and gives the misfit that is left, in variances of a fix.
func (f *fitted) walk(sights []sight, by []float64) (s slow, misfit float64) {
	s.from = sights[0].t
	n := int(math.Round((sights[len(sights)-1].t-s.from)/knotTime)) + 1
	knots := make([]knot, n)
	precise := 1 / (f.noise * f.noise)
	for k := range sights {
		v := &sights[k]
		d := f.dir[v.node]
		nx, ny, w := -d[1], d[0], v.weight*precise
		left := v.left
		if by != nil {
			left -= float64(by[v.node]*(1-v.share)) + float64(by[f.next(v.node)]*v.share)
		}
		q := &knots[min(n-1, int(math.Round((v.t-s.from)/knotTime)))]
		q.add(nx, ny, left, w)
		misfit += float64(w * left * left)
	}
	// Forward elimination of the chain, then back.
	tie := 1 / (f.wander * knotTime)
	first := 1 / (firstDrift * firstDrift)
	knots[0].xx += first
	knots[0].yy += first
	s.x, s.y = make([]float64, n), make([]float64, n)
	for k := range knots {
		q := &knots[k]
		if k+1 < n {
			q.xx += tie
			q.yy += tie
		}
		if k > 0 {
			q.xx += tie
			q.yy += tie
			p := knots[k-1] // eliminated: its inverse
			q.xx -= float64(tie * tie * p.xx)
			q.xy -= float64(tie * tie * p.xy)
			q.yy -= float64(tie * tie * p.yy)
			q.x += float64(tie * s.x[k-1])
			q.y += float64(tie * s.y[k-1])
		}
		det := float64(q.xx*q.yy) - float64(q.xy*q.xy)
		q.xx, q.xy, q.yy = q.yy/det, -q.xy/det, q.xx/det
		s.x[k] = float64(q.xx*q.x) + float64(q.xy*q.y)
		s.y[k] = float64(q.xy*q.x) + float64(q.yy*q.y)
		misfit -= float64(q.x*s.x[k]) + float64(q.y*s.y[k])
	}
	for k := n - 2; k >= 0; k-- {
		q := &knots[k]
		s.x[k] += float64(tie * (float64(q.xx*s.x[k+1]) + float64(q.xy*s.y[k+1])))
		s.y[k] += float64(tie * (float64(q.xy*s.x[k+1]) + float64(q.yy*s.y[k+1])))
	}
	return s, misfit
}

// eachLap calls for the sights of every lap.
func (f *fitted) eachLap(call func(lap int, sights []sight)) {
	for from := 0; from < len(f.sights); {
		to := from
		for to < len(f.sights) && f.sights[to].lap == f.sights[from].lap {
			to++
		}
		call(f.sights[from].lap, f.sights[from:to])
		from = to
	}
}

// drift fits the slow error of every lap.
func (f *fitted) drift() {
	f.eachLap(func(lap int, sights []sight) { f.slow[lap], _ = f.walk(sights, nil) })
}

// misfit is that of a fold of laps to the line moved, in variances of a fix.
func (f *fitted) misfit(by []float64, fold int) float64 {
	sum := 0.0
	f.eachLap(func(lap int, sights []sight) {
		if lap%len(f.folds) == fold {
			_, m := f.walk(sights, by)
			sum += m
		}
	})
	return sum
}

// unrest takes the noise and the wander from how sights of a lap part with
// time: at once by the noise, and then by the wander, second after second.
func (f *fitted) unrest() {
	const reach = 8 // s
	var sum, count [reach + 1]float64
	for k := range f.sights {
		a := &f.sights[k]
		for q := k + 1; q < len(f.sights) && f.sights[q].lap == a.lap; q++ {
			b := &f.sights[q]
			dt := b.t - a.t
			if dt > reach+0.5 {
				break
			}
			d := a.left - b.left
			m := int(dt + 0.5)
			if m == 0 || m > reach {
				continue
			}
			sum[m] += float64(float64(d*d) / 2)
			count[m]++
		}
	}
	// A straight line through the halved squares: noise of a sight and wander.
	var n, st, sv, stt, stv float64
	for m := 1; m <= reach; m++ {
		if count[m] > 0 {
			v := sum[m] / count[m]
			n, st, sv, stt, stv = n+1, st+float64(m), sv+v, stt+float64(m*m), stv+float64(float64(m)*v)
		}
	}
	slope := math.Max(0, (float64(n*stv)-float64(st*sv))/(float64(n*stt)-float64(st*st)))
	f.wander = math.Max(leastWander, math.Min(mostWander, 2*slope))
	once, pairs, steps := 0.0, 0.0, 0.0
	for k := 1; k < len(f.sights); k++ {
		a, b := &f.sights[k-1], &f.sights[k]
		if a.lap == b.lap && b.t-a.t < 2.5*slowestRate {
			d := a.left - b.left
			once += float64(d * d)
			pairs += 1/a.weight + 1/b.weight
			steps += float64(2 * slope * (b.t - a.t))
		}
	}
	if pairs > 0 {
		f.noise = math.Max(leastNoise, math.Sqrt(math.Max(once/2, once-steps)/pairs))
	}
}
