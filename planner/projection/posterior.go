package projection

import (
	"math"
	"math/rand/v2"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/wearmodel/reliability"
)

// RatePosterior is what is believed of how a set wears: of multiples of what the
// model has every leg take, one for roads, one for circuits, one for every point,
// circuit and visit, whose product a leg's wear is multiplied by, and of how far
// off its last readings are. Their logarithms, and the readings' errors, are
// jointly normal; a visit's is heavy-tailed and its own.
type RatePosterior struct {
	Mean     []float64         // onRoads, onCircuits, then those that the maps name
	Root     [][]float64       // lower triangular, by row: times its transpose it is the covariance
	Points   map[string]int    // by pointKey
	Circuits map[string]int    // by name, of those driven on
	Starts   map[string]ReadAs // by pointKey, of last readings
	Apart    float64           // spread of a circuit that was never driven on
	Visit    Scatter           // of a visit
	Learned  plan.Learned
}

// ReadAs is the error of a last reading of a point: the level less what was read.
type ReadAs struct {
	Odometer float64
	Level    float64
	Index    int // of Mean
}

// The first two of a posterior's multiples.
const (
	onRoads = iota
	onCircuits
)

// Scatter is that of a multiple: heavy-tailed, with a scale that is not known for
// sure.
type Scatter struct {
	Scale  float64 // of ln
	Unsure float64 // sd of the ln of the scale
}

// VisitFreedom is how heavy the tails of visits are: degrees of freedom of a t
// distribution. Engineering choice.
const VisitFreedom = 4

// Visits is what a factor of reliability is for a visit of some scatter.
func Visits(scatter float64) reliability.Factor {
	return reliability.Factor{SD: scatter, Freedom: VisitFreedom}
}

// PointKey names a point of a set.
func PointKey(place, zone string) string { return place + " " + zone }

// mean is the mean of a log that a map names; 0 where it does not.
func (r RatePosterior) mean(of map[string]int, key string) float64 {
	if i, ok := of[key]; ok {
		return r.Mean[i]
	}
	return 0
}

// OnRoads is the middle multiple of a point's wear on roads.
func (r RatePosterior) OnRoads(place, zone string) float64 {
	if r.Mean == nil {
		return 1
	}
	return math.Exp(r.Mean[onRoads] + r.mean(r.Points, PointKey(place, zone)))
}

// OnCircuit is that of a point's wear on a circuit.
func (r RatePosterior) OnCircuit(place, zone, circuit string) float64 {
	if r.Mean == nil {
		return 1
	}
	return math.Exp(r.Mean[onCircuits] + r.mean(r.Points, PointKey(place, zone)) + r.mean(r.Circuits, circuit))
}

// Log is the mean and the standard deviation of a sum of the logs, each so many
// times, by row.
func (r RatePosterior) Log(times map[int]float64) (mean, sd float64) {
	root := make([]float64, len(r.Root))
	for i, row := range r.Root {
		mean += float64(times[i] * r.Mean[i])
		for j, v := range row {
			root[j] += float64(times[i] * v)
		}
	}
	for _, v := range root {
		sd += float64(v * v)
	}
	return mean, math.Sqrt(sd)
}

// SD is the standard deviation of a sum of the logs.
func (r RatePosterior) SD(of ...int) float64 {
	times := map[int]float64{}
	for _, i := range of {
		times[i] = 1
	}
	_, sd := r.Log(times)
	return sd
}

// VisitSD is the standard deviation of the log of a visit's multiple.
func (r RatePosterior) VisitSD() float64 {
	return r.Visit.Scale * math.Sqrt(VisitFreedom/(VisitFreedom-2.0))
}

// logs draws the logs, and the readings' errors, by row of Mean.
func (d *Draws) logs(r *rand.Rand, of RatePosterior) [][]float64 {
	out := make([][]float64, len(of.Mean))
	normals := make([][]float64, len(of.Mean))
	for i := range normals {
		normals[i] = d.normals(r)
	}
	for i, mean := range of.Mean {
		out[i] = make([]float64, d.N)
		for k := range out[i] {
			out[i][k] = mean
		}
		for j, root := range of.Root[i] {
			if root == 0 {
				continue
			}
			for k, z := range normals[j] {
				out[i][k] += float64(root * z)
			}
		}
	}
	return out
}

// scales draws what the scale of a set's visits may be.
func (w *Worker) scales(r *rand.Rand, of Scatter) []float64 {
	return w.lognormals(r, math.Log(of.Scale), of.Unsure)
}

// scatters draws multiples of a visit by the scales drawn: by the quantiles of
// Student's t with four degrees of freedom, which have a closed form (Shaw, J.
// Comput. Finance 9, 2006).
func (w *Worker) scatters(r *rand.Rand, scales []float64) []float64 {
	out := w.hypercube(r, 0, func(i int) (above, below float64) {
		root := math.Sqrt(1 - float64(4*w.offsets[i]*w.offsets[i])) // of 4 u (1 - u)
		quantile := 2 * math.Sqrt(math.Cos(math.Acos(root)/3)/root-1)
		return quantile, -quantile
	})
	for k, quantile := range out {
		out[k] = math.Exp(scales[k] * quantile)
	}
	return out
}

// Posterior is all that a plan takes from the logbook.
type Posterior struct {
	Sets     map[string]RatePosterior     // by id of the set
	Hubs     map[string]reliability.Scale // by id of the set, where there is a history
	Outliers map[string]Outlier           // by OutlierKey, where the last reading is one
}

// Outlier is a last reading that the others contradict, and the level that is
// used instead of it.
type Outlier struct {
	Odometer     float64 // m
	Date         time.Time
	Used         float64 // level of an earlier reading, or of the new part
	UsedOdometer float64 // m
	UsedDate     time.Time
}

// Spreads are those of a point's wear on roads and on a circuit of the past, as
// the widest of the set's points has them.
func (r RatePosterior) Spreads() (road, circuit float64) {
	road, circuit = r.SD(onRoads), r.SD(onCircuits)
	for _, i := range r.Points {
		road, circuit = max(road, r.SD(onRoads, i)), max(circuit, r.SD(onCircuits, i))
	}
	return road, math.Hypot(circuit, r.VisitSD())
}

// OutlierKey is the key of Posterior.Outliers: the id of the set, and
// profiles.SeenKey.
func OutlierKey(set, seen string) string { return set + " " + seen }
