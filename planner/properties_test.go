package planner

import (
	"bytes"
	"encoding/json"
	"testing"

	"pgregory.net/rapid"

	"example.com/tripwear/planner/decision"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/projection"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/trip"
	"example.com/tripwear/profiles"
)

// propertyDraws are few enough for many plans.
const propertyDraws = 1000

// loaded is an owner's folder, which profiles accepts.
func loaded(t *rapid.T, o *randomcar.Owner) *profiles.Folder {
	t.Helper()
	files, err := o.Files()
	if err != nil {
		t.Fatal(err)
	}
	f, err := profiles.Load(files)
	if err != nil {
		t.Fatalf("%v\n%s%s", err, files["car.yaml"].Data, files["logbook.csv"].Data)
	}
	return f
}

// answered is the plan of an owner's trip, asked for a few days before it.
func answered(t *rapid.T, o *randomcar.Owner) *plan.Plan {
	t.Helper()
	return answeredBy(t, o, propertyDraws)
}

func answeredBy(t *rapid.T, o *randomcar.Owner, draws int) *plan.Plan {
	t.Helper()
	f := loaded(t, o)
	p, err := Make(f, f.Trips[randomcar.Trip], Options{Draws: draws, Today: o.Depart.AddDate(0, 0, -10)})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// pairDraws are fewer: two answers share them, so that chance falls out of
// their difference.
const pairDraws = 250

// pair is an owner's answer and another's, as far as their verdicts, by what
// their logbooks teach of the rates or by the model's alone. Cars that are the
// same to the wear models share their laps.
func pair(t *rapid.T, prior bool, one, other *randomcar.Owner) (a, b *plan.Plan) {
	t.Helper()
	var m trip.Machine
	asked := func(o *randomcar.Owner) *plan.Plan {
		f := loaded(t, o)
		if fresh := trip.NewMachine(f); m.Machine != fresh.Machine {
			m = fresh
		}
		opts := Options{Draws: pairDraws, Today: o.Depart.AddDate(0, 0, -10), Prior: prior}.orDefault()
		c, err := undecided(m, f, f.Trips[randomcar.Trip], opts)
		if err != nil {
			t.Fatal(err)
		}
		decision.Choose(c.sets, c.Journey, opts.Today, projection.NewDraws(opts.Draws, opts.Seed))
		p := c.outline(f, f.Trips[randomcar.Trip], opts)
		c.judge(p, opts.Today)
		p.Warnings = c.learned.Warnings()
		return p
	}
	return asked(one), asked(other)
}

// printed is what a reader of a plan's JSON has of it.
func printed(t *rapid.T, p *plan.Plan) (out jsonPlan) {
	t.Helper()
	var b bytes.Buffer
	if err := report.JSON(&b, p); err != nil {
		t.Fatal(err)
	}
	if err := json.Unmarshal(b.Bytes(), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

// jsonPlan is as much of a plan's JSON as the tests work out anew.
type jsonPlan struct {
	Legs   []jsonLeg
	Sets   []jsonSet
	Checks []jsonCheck
	Safe   bool
}

type jsonLeg struct {
	Kind      profiles.LegKind
	Name      string
	Meters    float64 `json:"metres"`
	Refuels   int
	RefuelAt  []float64 `json:"refuel_at"`
	Sessions  int
	BySummary bool `json:"by_summary"`
}

type jsonSet struct {
	ID, Name      string
	Kind          profiles.Kind
	Critical      bool
	Points        []jsonPoint
	After         []jsonBand
	RoadSpread    float64 `json:"road_spread"`
	CircuitSpread float64 `json:"circuit_spread"`
	SummarySpread float64 `json:"summary_spread"`
	Stop          []string
	Seen          []json.RawMessage // what was found, not read
	Decision      struct {
		Action        plan.Action
		Leg           int
		Spare         bool
		POut          float64 `json:"p_out"`
		PUnsafe       float64 `json:"p_unsafe"`
		PAsIs         float64 `json:"p_as_is"`
		PNeed         float64 `json:"p_need"`
		LifeEnd       float64 `json:"life_end"`
		Reason, Where string
	}
}

type jsonPoint struct {
	Place, Zone               string
	New, Start, Limit, Margin float64
	Gauge                     float64
	Prior                     [2]float64
	Loss, Slow, Fast, Cap     []float64
}

type jsonBand struct {
	PLimit  float64 `json:"p_limit"`
	PMargin float64 `json:"p_margin"`
}

type jsonCheck struct {
	When, What, Set, Measure, Looks string
}

// TestRandomOwners: every folder that is drawn is accepted, and its plan is
// made twice the same.
func TestRandomOwners(t *testing.T) {
	randomcar.Check(t, 5, func(t *rapid.T) {
		o := randomcar.Draw(t, 30)
		if a, b := printed(t, answered(t, o)), printed(t, answered(t, o)); a.Safe != b.Safe || len(a.Sets) != len(b.Sets) || a.Sets[0].Decision.Reason != b.Sets[0].Decision.Reason {
			t.Errorf("two plans of one trip: %+v, %+v", a, b)
		}
	})
}
