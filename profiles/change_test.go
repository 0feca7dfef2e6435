package profiles

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"example.com/tripwear/profiles/quantity"
)

func juniper(t *testing.T) (*Folder, Trip) {
	t.Helper()
	files, err := Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	f, err := Load(files)
	if err != nil {
		t.Fatal(err)
	}
	trip, err := f.FindTrip("")
	if err != nil {
		t.Fatal(err)
	}
	return f, trip
}

// exported leaves out what a folder keeps to itself, and takes one unknown
// figure for another.
var exported = cmp.Options{
	cmp.FilterPath(func(p cmp.Path) bool {
		f, ok := p.Last().(cmp.StructField)
		return ok && strings.ToLower(f.Name()[:1]) == f.Name()[:1]
	}, cmp.Ignore()),
	unknowns[quantity.Money](), unknowns[quantity.Volume](), unknowns[quantity.Mass](), unknowns[quantity.Duration](),
}

func unknowns[T ~float64]() cmp.Option {
	return cmp.Comparer(func(a, b T) bool { return a == b || !quantity.Known(a) && !quantity.Known(b) })
}

// Each key moves what it names, in the copy alone.
func TestApply(t *testing.T) {
	const degree = math.Pi / 180
	fitted := func(f *Folder, part string) Fitted {
		for _, e := range f.Car.Fitted {
			if e.Part == part {
				return e
			}
		}
		return Fitted{}
	}
	for change, got := range map[string]struct {
		of   func(*Folder, Trip) float64
		want float64
	}{
		"alignment.LR.toe=0.2deg":                                {func(f *Folder, _ Trip) float64 { return float64(f.Car.Alignment["LR"].Toe) }, 0.2 * degree},
		"alignment.LR.toe=-6 min":                                {func(f *Folder, _ Trip) float64 { return float64(f.Car.Alignment["LR"].Toe) }, -0.1 * degree},
		"alignment.LF.toe = 0.1 deg":                             {func(f *Folder, _ Trip) float64 { return float64(f.Car.Alignment["LF"].Camber) }, -1.5 * degree},
		"alignment.rear.camber=-2.5deg":                          {func(f *Folder, _ Trip) float64 { return float64(f.Car.Alignment["RR"].Camber) }, -2.5 * degree},
		"alignment.all.toe=0deg":                                 {func(f *Folder, _ Trip) float64 { return float64(f.Car.Alignment["RF"].Toe) }, 0},
		"mass=3000lb":                                            {func(f *Folder, _ Trip) float64 { return float64(f.Car.Mass) }, 3000 * 0.45359237},
		"boot.volume=90L":                                        {func(f *Folder, _ Trip) float64 { return float64(f.Car.Boot.Volume) }, 0.09},
		"costs.stranded=3000":                                    {func(f *Folder, _ Trip) float64 { return float64(f.Car.Costs.Stranded) }, 3000},
		"costs.fuel=2/L":                                         {func(f *Folder, _ Trip) float64 { return float64(f.Car.Costs.Fuel) }, 2000},
		"safety.cap=0.5%":                                        {func(f *Folder, _ Trip) float64 { return float64(f.Model.Safety.Cap) }, 0.005},
		"paces.intermediate=81%":                                 {func(f *Folder, _ Trip) float64 { return float64(f.Model.Paces["intermediate"]) }, 0.81},
		"parts.pads-front.price=99":                              {func(f *Folder, _ Trip) float64 { return float64(f.Parts["pads-front"].Price) }, 99},
		"parts.pads-front.margin=5mm":                            {func(f *Folder, _ Trip) float64 { return float64(f.Parts["pads-front"].Pads.Margin) }, 5e-3},
		"parts.pads-front.fit=[shop, home]":                      {func(f *Folder, _ Trip) float64 { return float64(len(f.Parts["pads-front"].Fit)) }, 2},
		"shelf.rotors-front=1":                                   {func(f *Folder, _ Trip) float64 { return float64(f.Car.Shelf[len(f.Car.Shelf)-1].Quantity) }, 1},
		"fitted.pads-front.pad.LF=5.8mm":                         {func(f *Folder, _ Trip) float64 { return float64(fitted(f, "pads-front").Pad["LF"]) }, 5.8e-3},
		"fitted.pads-front.circuit_days=4":                       {func(f *Folder, _ Trip) float64 { return float64(fitted(f, "pads-front").CircuitDays) }, 4},
		"fitted.tires-rear.tread.LR=[2/32 in, 3/32 in, 4/32 in]": {func(f *Folder, _ Trip) float64 { return float64(fitted(f, "tires-rear").Tread["LR"][2]) }, 4 * 0.0254 / 32},
		"fitted.pads-front=pads-front":                           {func(f *Folder, _ Trip) float64 { return float64(len(fitted(f, "pads-front").Pad)) }, 0},
		"fitted.hub-LR=hub-rear":                                 {func(f *Folder, _ Trip) float64 { return float64(len(f.Car.Fitted)) }, 12},
		"fitted.oil=oil":                                         {func(f *Folder, t Trip) float64 { return t.Depart.Sub(fitted(f, "oil").Since.Date).Hours() }, 0},
		"pace=advanced":                                          {func(_ *Folder, t Trip) float64 { return count(t, func(l Leg) bool { return l.Pace == "advanced" }) }, 2},
		"pace.heron-flats=80%":                                   {func(_ *Folder, t Trip) float64 { return count(t, func(l Leg) bool { return l.Pace == "80%" }) }, 1},
		"pace.Heron Flats=80%":                                   {func(_ *Folder, t Trip) float64 { return count(t, func(l Leg) bool { return l.Pace == "80%" }) }, 1},
		"sessions=4x20min": {func(_ *Folder, t Trip) float64 {
			return count(t, func(l Leg) bool { return l.Sessions == Sessions{4, 1200} })
		}, 2},
		"days.heron-flats=1":                  {func(_ *Folder, t Trip) float64 { return float64(t.Legs[1].Days) }, 1},
		"days.2=3":                            {func(_ *Folder, t Trip) float64 { return float64(t.Legs[5].Days) }, 3},
		"distance.1=800mi":                    {func(_ *Folder, t Trip) float64 { return float64(t.Legs[0].Distance) }, 800 * 1609.344},
		"distance.Quarry Ridge to home=800km": {func(_ *Folder, t Trip) float64 { return float64(t.Legs[6].Distance) }, 800e3},
		"surface.2=winding":                   {func(_ *Folder, t Trip) float64 { return count(t, func(l Leg) bool { return l.Surface == "winding" }) }, 1},
		"rain=0%":                             {func(_ *Folder, t Trip) float64 { return float64(t.Legs[0].Rain) }, 0},
		"ambient=40C":                         {func(_ *Folder, t Trip) float64 { return count(t, func(l Leg) bool { return l.Ambient == 40 }) }, 7},
		"can=[shop]":                          {func(_ *Folder, t Trip) float64 { return float64(len(t.Legs[3].Can)) }, 1},
		"depart=2027-06-01": {func(_ *Folder, t Trip) float64 {
			return t.Depart.Sub(time.Date(2027, 6, 1, 0, 0, 0, 0, time.UTC)).Hours()
		}, 0},
	} {
		f, trip := juniper(t)
		copied, changed := f.Clone(), trip.Clone()
		if diff := cmp.Diff(f, copied, exported); diff != "" {
			t.Fatalf("a clone differs: %s", diff)
		}
		c, err := ParseChange(change)
		if err != nil {
			t.Fatal(err)
		}
		if err := copied.Apply(&changed, c); err != nil {
			t.Errorf("%s: %v", change, err)
			continue
		}
		if v := got.of(copied, changed); math.Abs(v-got.want) > 1e-9*math.Max(1, math.Abs(got.want)) {
			t.Errorf("%s: got %g, want %g", change, v, got.want)
		}
		again, same := juniper(t)
		if diff := cmp.Diff(again, f, exported) + cmp.Diff(same, trip); diff != "" {
			t.Errorf("%s changed the first folder or trip: %s", change, diff)
		}
		if cmp.Equal(f, copied, exported) && reflect.DeepEqual(trip, changed) {
			t.Errorf("%s changed nothing", change)
		}
	}
}

func count(t Trip, is func(Leg) bool) float64 {
	n := 0.0
	for _, l := range t.Legs {
		if is(l) {
			n++
		}
	}
	return n
}

// Splitting an entry of two hubs leaves the other one with what was read of it.
func TestApplySplitsAnEntry(t *testing.T) {
	f, trip := juniper(t)
	if err := f.Apply(&trip, Change{"fitted.hub-RR", "hub-rear"}); err != nil {
		t.Fatal(err)
	}
	places := map[string]quantity.Number{}
	for _, e := range f.Car.Fitted {
		for _, at := range e.At {
			if f.Parts[e.Part].Kind == Bearing {
				places[at] = e.CircuitDays
			}
		}
	}
	if want := (map[string]quantity.Number{"LF": 8, "RF": 2, "LR": 11, "RR": 0}); !cmp.Equal(places, want) {
		t.Errorf("hubs with days %v, want %v", places, want)
	}
}

// What the files refuse is refused here, with the change and what is expected.
func TestApplyRefuses(t *testing.T) {
	for change, want := range map[string]string{
		"aligment.LR.toe=0.2deg":         `aligment.LR.toe=0.2deg: unknown key "aligment" (did you mean "alignment"?)`,
		"alignment.fornt.toe=0.2deg":     `did you mean "front"`,
		"alignment.LS.toe=0.2deg":        `unknown place "LS", expected LF, RF`,
		"alignment.LR.too=0.2deg":        `unknown key "too" (did you mean "toe"?), expected camber or toe`,
		"alignment.LR=0.2deg":            "without a setting",
		"alignment.LR.toe=5deg":          "toe: 5deg is out of range, expected -2 deg to 2 deg",
		"alignment.LR.toe=0.2":           "0.2 has no unit",
		"alignment.LR.toe=3mm":           "without a diameter",
		"boot.volum=90L":                 `did you mean "volume"`,
		"boot=90L":                       "boot is \"90L\", expected a mapping",
		"boot.volume=90kg":               "volume",
		"costs.stranded=-5":              "negative",
		"safety.cap=3%":                  "cap: 3% is out of range, expected 0 % to 2 %",
		"pase=advanced":                  `did you mean "pace"`,
		"pace=advnced":                   `unknown pace "advnced" (did you mean "advanced"?)`,
		"pace=200%":                      "pace: 200% is out of range",
		"pace.heron-flat=advanced":       `unknown leg "heron-flat" (did you mean "heron-flats"?)`,
		"distance.9=5mi":                 `unknown leg "9", expected a number from 1 to 4`,
		"sessions=20 min":                "sessions",
		"days=40":                        "days: 40 is out of range, expected 1 to 14",
		"surface=hihgway":                `did you mean "highway"`,
		"fitted.pad-front=pads-front":    `unknown set "pad-front" (did you mean "pads-front"?)`,
		"fitted.pads-front=pads-frunt":   `unknown part "pads-frunt" (did you mean "pads-front"?)`,
		"fitted.pads-front=tires-rear":   "is of kind tire, expected a part of kind pads",
		"fitted.pads-front.pad.LR=5mm":   "a reading at LR",
		"fitted.pads-front.pad.LF=50mm":  "out of range",
		"fitted.pads-front.pad.LF=12mm":  "more than new",
		"fitted.pads-front.tread.LF=5mm": "tread",
		"fitted.pads-front.since=today":  "since",
		"fitted.oil.pad.LF=5mm":          "not for part",
		"parts.pads.price=5":             "unknown part",
		"parts.pads-front.pricee=5":      `did you mean "price"`,
		"parts.pads-front.margin=0.5mm":  "limit, margin and new_depth",
		"shelf.pads-frnt=1":              `did you mean "pads-front"`,
		"shelf=1":                        "shelf without a part",
		"depart=tomorrow":                "is not a date",
		"trip=another":                   "unknown key",
		"can=[shop, pool]":               "pool",
		"odometer=1000mi":                "past the car's odometer",
	} {
		f, trip := juniper(t)
		c, err := ParseChange(change)
		if err != nil {
			t.Fatal(err)
		}
		err = f.Apply(&trip, c)
		if err == nil {
			t.Errorf("%s was taken", change)
			continue
		}
		if !strings.Contains(err.Error(), want) || !strings.HasPrefix(err.Error(), change) {
			t.Errorf("%s: got %q, want %q in it", change, err, want)
		}
	}
	for _, s := range []string{"", "pace", "=5", "pace=", " = "} {
		if _, err := ParseChange(s); err == nil {
			t.Errorf("%q was taken for a change", s)
		}
	}
}

func FuzzApply(f *testing.F) {
	for _, s := range []string{"alignment.LR.toe=0.2deg", "fitted.oil=oil", "fitted.hub-LF.feel.LF=play", "pace.1=80%", "parts.oil.months=3", "a.b.c=[x,[y]]", "fitted..=", "shelf.=1"} {
		f.Add(s)
	}
	files, err := Demo("juniper")
	if err != nil {
		f.Fatal(err)
	}
	folder, err := Load(files)
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, s string) {
		c, err := ParseChange(s)
		if err != nil {
			return
		}
		trip := folder.Trips["spring"].Clone()
		_ = folder.Clone().Apply(&trip, c) // must not panic
	})
}

// A change at a wheel is the same in whatever spelling.
func TestApplySpelled(t *testing.T) {
	var cars []Car
	for _, spelled := range []string{"LR", "RL", "rear left"} {
		f, trip := juniper(t)
		for _, change := range []string{"fitted.tires-rear.tread.%s=[3/32 in, 3/32 in, 3/32 in]", "fitted.hub-%s.since.odometer=140000 mi", "alignment.%s.toe=0.2deg"} {
			c, err := ParseChange(strings.Replace(change, "%s", spelled, 1))
			if err == nil {
				err = f.Apply(&trip, c)
			}
			if err != nil {
				t.Fatal(err)
			}
		}
		cars = append(cars, f.Car)
	}
	for _, car := range cars[1:] {
		if !reflect.DeepEqual(car.Fitted, cars[0].Fitted) || !reflect.DeepEqual(car.Alignment, cars[0].Alignment) {
			t.Error("a spelling changes what is changed")
		}
	}
}
