package projection

import (
	"math"
	"math/rand/v2"

	"example.com/tripwear/wearmodel/reliability"
)

// roadClasses are the equally likely classes that a hub's road rate is drawn in:
// one belief of its life for each.
const roadClasses = 5

// age is the use that a part which fails has seen, in L10 lives, nominal.
type age struct {
	road, circuit float64
	unknown       bool // nobody knows how old it is: that it runs says nothing of the corner
}

func (a age) nominal() float64 { return a.road + a.circuit }

// life is what is believed of the lives of a set that ends by a failure.
func (w *Worker) life(s *Set) reliability.Scale {
	if s.hub != nil {
		return *s.hub
	}
	return w.hubs
}

// hubLives draws how long, in L10 lives, a bearing good at its age will run on,
// and how fast roads use it up. What roads took of an old one is as uncertain
// as what they will take, and that it still runs speaks for kind roads.
func (w *Worker) hubLives(r *rand.Rand, s *Set) (lives, roads []float64) {
	belief := w.life(s)
	fresh := belief.At(0)
	var rates, upTo [roadClasses]float64
	var samplers [roadClasses]reliability.Sampler
	sum := 0.0
	for i := range rates {
		z := math.Sqrt2 * math.Erfinv(float64(2*i+1)/roadClasses-1)
		rates[i] = math.Exp(s.RoadSD * z)
		at := float64(s.age.road*rates[i]) + s.age.circuit
		life, likely := belief.Unheard, 1.0
		if !s.age.unknown {
			life, likely = belief.At, fresh.Survive(at)
		}
		if i > 0 && (s.age.road == 0 || s.RoadSD == 0) {
			samplers[i] = samplers[0]
		} else {
			samplers[i] = life(at)
		}
		sum += likely
		upTo[i] = sum
	}
	class, first, second := w.uniforms(r), w.uniforms(r), w.uniforms(r)
	lives, roads = first, class
	for k, u := range class {
		i := 0
		for i < roadClasses-1 && u*sum > upTo[i] {
			i++
		}
		lives[k], roads[k] = samplers[i].Draw(first[k], second[k]), rates[i]
	}
	return lives, roads
}
