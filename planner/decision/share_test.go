package decision

import (
	"math"
	"testing"
	"time"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/trip"
)

// One hub serves either side: two sets that would each bring it are one item, one
// room and one price, and each runs the chance that the other has used it. By
// hand, where each needs it with 10 % and its own leaves 1 % of being stopped
// short in place of 12 %: 0.9 x 1 + 0.1 x 12 = 2.1 %.
func TestOneSpareForTwo(t *testing.T) {
	f, outing := demo(t, "juniper")
	p := f.Parts["hub-front"]
	p.Fit = []string{"paddock", "shop", "home"}
	f.Parts["hub-front"] = p
	way, err := trip.NewJourney(trip.NewMachine(f), f, outing)
	if err != nil {
		t.Fatal(err)
	}
	m := &menu{limit: [2]float64{3e-3, 3}} // room for one
	for _, s := range projection.NewSets(way, projection.Posterior{}) {
		if s.Part == "hub-front" {
			m.sets = append(m.sets, s)
		}
	}
	asIs, bring := option{site: noSite}, option{site: noSite, bought: 1, size: [2]float64{2e-3, 2.2}}
	asIs.Action, asIs.POut, asIs.PUnsafe, asIs.crossing = plan.Watch, 0.12, 0.019, 0.12
	bring.Action, bring.POut, bring.PUnsafe, bring.crossing, bring.PNeed, bring.Leg = plan.Bring, 0.01, 0.002, 0.01, 0.1, -1
	price := func(i int, op *option) { newChooser(m.sets[i], nil, way, time.Time{}).price(op) }
	for i := range m.sets {
		a, b := asIs, bring
		price(i, &a)
		price(i, &b)
		m.options = append(m.options, []option{a, b})
	}
	m.shareSpares(way, time.Time{})
	m.shares = m.shelfShares()
	best := m.solve(m.limit, nil)
	lead, join := m.chosen(best, 0), m.chosen(best, 1)
	if lead.role != leads || join.role != joins || join.Shares != m.sets[0].ID || len(Needs(join.Decision, way.Legs)) != 0 || len(Needs(lead.Decision, way.Legs)) != 1 {
		t.Fatalf("%v %+v\n%v %+v", lead.role, lead.Decision, join.role, join.Decision)
	}
	if math.Abs(lead.POut-0.021) > 1e-12 || math.Abs(join.POut-0.021) > 1e-12 || lead.size != bring.size || join.size != [2]float64{} {
		t.Errorf("%.4f and %.4f, room %v and %v", lead.POut, join.POut, lead.size, join.size)
	}
	// Where the other may well have used it, each has its own: past the cap a shared one is none.
	for i := range m.options {
		m.options[i] = m.options[i][:2]
		m.options[i][1].PNeed, m.options[i][0].PUnsafe, m.options[i][0].ruledOut = 0.5, 0.08, plan.BindCap
	}
	m.limit = [2]float64{1, 100}
	m.shareSpares(way, time.Time{})
	best = m.solve(m.limit, nil)
	if a, b := m.chosen(best, 0), m.chosen(best, 1); a.role != alone || b.role != alone || a.Action != plan.Bring || b.Action != plan.Bring {
		t.Errorf("%v %s, %v %s", a.role, a.Action, b.role, b.Action)
	}
	if m.mate(0) != 1 || m.mate(1) != 0 {
		t.Errorf("mates %d, %d", m.mate(0), m.mate(1))
	}
}
