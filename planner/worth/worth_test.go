package worth_test

import (
	"slices"
	"testing"
	"time"

	"pgregory.net/rapid"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/newcar"
	"example.com/tripwear/profiles/quantity"
)

// savings are what readings are worth, by set.
func savings(p *plan.Plan) map[string]float64 {
	out := map[string]float64{}
	for _, v := range p.Worth {
		if v.What == plan.WorthReading {
			out[v.Set] = v.Saving
		}
	}
	return out
}

// TestReadingPaysOnce: tires that nobody read are replaced, at a cost that is saved
// where they turn out good enough: no more than in all cases, and at least in about
// the share that is. Once they are read there is nothing left to save.
func TestReadingPaysOnce(t *testing.T) {
	today := time.Date(2027, 5, 1, 0, 0, 0, 0, time.UTC)
	f, err := profiles.Load(newcar.Files(newcar.Answers{"kind": "coupe", "age": "?"}, today))
	if err != nil {
		t.Fatal(err)
	}
	make := func() *plan.Plan {
		p, err := planner.Make(f, f.Trips["weekend"], planner.Options{Draws: 2000, Today: today})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	p := make()
	i := slices.IndexFunc(p.Readings, func(r plan.Deciding) bool { return r.Set == "tires-front" })
	if i < 0 {
		t.Fatalf("the front tires decide nothing: %+v", p.Readings)
	}
	replaced := 250.0 // what a pair costs at the least by the guess, thrown away new
	worth, good := savings(p)["tires-front"], 1-p.Readings[i].Chance
	if worth < (good-0.2)*replaced*0.3 || worth > 400 {
		t.Errorf("reading the front tires is worth %.0f, where %.0f %% are good", worth, 100*good)
	}
	const deep = quantity.Length(6e-3)
	for k := range f.Car.Fitted {
		if e := &f.Car.Fitted[k]; e.Part == "tires-front" {
			e.Tread = map[string][]quantity.Length{"LF": {deep, deep, deep}, "RF": {deep, deep, deep}}
		}
	}
	if again := savings(make())["tires-front"]; again > 0.1*worth {
		t.Errorf("read, they are worth %.0f to read again, before %.0f", again, worth)
	}
	if !slices.ContainsFunc(p.Worth, func(v plan.Worth) bool { return v.What == plan.WorthAge && v.AtMost }) {
		t.Errorf("nothing is said of an unknown age: %+v", p.Worth)
	}
}

// TestNoGainWithoutCost: no reading saves what is not spent, and none costs.
func TestNoGainWithoutCost(t *testing.T) {
	randomcar.Check(t, 6, func(t *rapid.T) {
		files, err := randomcar.Draw(t, 10).Files()
		if err != nil {
			t.Fatal(err)
		}
		f, err := profiles.Load(files)
		if err != nil {
			t.Fatal(err)
		}
		p, err := planner.Make(f, f.Trips[randomcar.Trip], planner.Options{Draws: 500})
		if err != nil {
			t.Fatal(err)
		}
		for _, v := range p.Worth {
			i := slices.IndexFunc(p.Sets, func(s plan.Set) bool { return s.ID == v.Set })
			if d := p.Sets[i].Decision; v.Saving < 0 || v.What == plan.WorthAge && v.Saving > d.Cost || d.Action == plan.DoNotTake {
				t.Fatalf("%+v of a set that is decided %+v", v, d)
			}
		}
	})
}
