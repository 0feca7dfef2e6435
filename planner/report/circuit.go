package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// CircuitOptions say how a circuit is printed.
type CircuitOptions struct {
	View
	Plain bool // a sketch of plain characters
}

// Circuit writes what a circuit asks of the car and what it takes.
func Circuit(w io.Writer, c *plan.Circuit, o CircuitOptions) error {
	t := circuitText{newPrinter(w, o.View), c}
	t.title()
	t.track()
	t.drawn()
	t.sketch(o.Plain)
	t.turns()
	t.brakings()
	t.lap()
	t.places()
	t.wear()
	t.Line("")
	t.Fold("", page.Estimate)
	return t.Flush()
}

type circuitText struct {
	printer
	*plan.Circuit
}

// short is a length along the lap or a radius.
func (t circuitText) short(m float64) string { return quantity.Ground[t.Units].Text(m) }

func (t circuitText) title() {
	how := t.From()
	if t.Reverse {
		how += ", driven in reverse"
	}
	if t.Wet {
		how += ", wet"
	}
	t.Fold("", fmt.Sprintf("%s, %s, with %s", t.Name, how, t.Car))
	way, speed := "", quantity.Velocity[t.Units]
	if t.Direction != "" {
		way = ", " + t.Direction
	}
	t.Line("  %s%s, lap %s at %s pace, %s to %s", quantity.LapLength[t.Units].Text(t.Meters), way, quantity.Lap(t.LapTime), page.Percent(t.Pace), speed.Number(t.MinSpeed), speed.Text(t.TopSpeed))
	if t.Told != nil {
		t.Note("%s.", sentence(t.Told.Words()))
	}
	load := "which lean on the right-hand wheels"
	switch {
	case math.Round(100*t.LeftShare) == 50:
		load = "so that either side carries as much"
	case t.LeftShare < 0.5:
		load = "so right turns, which lean on the left-hand wheels, take most"
	}
	t.Note("left share %s of the cornering load in left turns, %s", page.Spread(t.LeftShare, t.ShareSD), load)
}

func (t circuitText) track() {
	if t.Track == nil {
		return
	}
	t.Head("The recorded track")
	t.Note("%s used, %s to %s; %d out and in laps; %.3g fixes a second, which lie within %s of the line",
		page.Count(len(t.Track.Laps), "hot lap"), quantity.Lap(slices.Min(t.Track.Laps)), quantity.Lap(slices.Max(t.Track.Laps)), t.Track.OutIn, t.Track.Rate, t.noise())
	t.begins(t.Track.Lat, t.Track.Lon)
	const most = 6
	dropped := t.Track.Dropped
	t.List("  left out: ", dropped[:min(most, len(dropped))])
	if n := len(dropped) - most; n > 0 {
		t.Line("  and %s more", page.Count(n, "lap"))
	}
	if t.Track.Lost > 0 {
		t.Line("  fixes nowhere near, left out: %d", t.Track.Lost)
	}
	if t.Track.Elsewhere > 0 {
		t.Note("The recording also holds laps of another circuit, %s round, which are not used: cut them out and give them by themselves.", quantity.LapLength[t.Units].Text(t.Track.Elsewhere))
	}
	if n := t.Track.Against; n > 0 {
		t.Note("The recording also holds %s the other way round, which %s not used: cut them out and give them by themselves, or ask with --direction reverse.", page.Count(n, "lap"), map[bool]string{true: "is", false: "are"}[n == 1])
	}
	if t.Track.Held {
		t.Note("No pace of this car from 40 to 105 %% gives these laps: the nearest is taken, and lap, speeds and wear are those of that pace. Length, direction, turns and left share hold whatever the car. Were the laps driven on slicks, in a kart or on a motorcycle, give --friction, or friction in car.yaml.")
	}
	if len(t.Track.Laps) < 3 {
		t.Note("Few laps: a whole session would be surer.")
	}
}

// drawn says what a map holds, and what it cannot say.
func (t circuitText) drawn() {
	m := t.Map
	if m == nil {
		return
	}
	t.Head("The map")
	every, ends := t.Meters/float64(m.Points), "its ends meet"
	if m.Gap > 2*every {
		ends = "its ends, " + t.short(m.Gap) + " apart, were joined"
	}
	if least := quantity.Ground[t.Units].SI(1); every >= least {
		ends = "one every " + t.short(every) + "; " + ends
	}
	t.Note("%q: %d points, %s", m.Line, m.Points, ends)
	if m.Widths {
		t.Note("driven on the line of least curvature between the edges that the map has")
	} else {
		t.Note("the map has no widths: %s to either side assumed; driven on the line of least curvature between those edges", t.short(m.Assumed))
	}
	if m.Lat != nil {
		t.begins(*m.Lat, *m.Lon)
	}
	t.Note("At this pace the lap is known within +-%.0f %% and its braking energy within +-%.0f %%, most of it since a driver's own line is not one of least curvature. A recording with times will do better: save it in the place of this.",
		math.Ceil(100*m.TimeSD), math.Ceil(100*t.BrakeSD))
}

// begins says where a circuit lies, by which an owner sees lat and lon exchanged.
func (t circuitText) begins(lat, lon float64) {
	t.Note("it begins at %s: if that is another place, lat and lon are exchanged and left is right", position(lat, lon))
}

// position is a place on the earth, to 100 m.
func position(lat, lon float64) string {
	side := func(v float64, plus, minus string) string {
		if v < 0 {
			plus = minus
		}
		return fmt.Sprintf("%.3f %s", math.Abs(v), plus)
	}
	return side(lat, "N", "S") + ", " + side(lon, "E", "W")
}

// noise is the spread of the fixes; in whole units, one at least.
func (t circuitText) noise() string {
	d, noise := quantity.FixSpread[t.Units], t.Track.Noise
	if d.Decimals == 0 {
		noise = math.Max(d.SI(1), noise)
	}
	return d.Text(noise)
}

func (t circuitText) sketch(plain bool) {
	lines := sketch(t.Circuit, t.Width-4, plain)
	if len(lines) == 0 {
		return
	}
	north := ""
	if t.View.North {
		north = ", north up"
	}
	t.Head("From above" + north)
	for _, l := range lines {
		t.Line("  %s", l)
	}
}

func (t circuitText) turns() {
	if len(t.Turns) == 0 {
		return
	}
	left := 0
	for _, turn := range t.Turns {
		if turn.Left {
			left++
		}
	}
	t.Head(fmt.Sprintf("%d turns to the left, %d to the right", left, len(t.Turns)-left))
	widths, speed := page.Columns{4, 10, -7, 8, 10, 12}, quantity.Velocity[t.Units]
	table := t.Table(widths, "", "at", "  to", "angle", "radius", "apex "+speed.Name)
	for n, turn := range t.Turns {
		side := "  right"
		if turn.Left {
			side = "  left"
		}
		table.Row(fmt.Sprint(n+1), t.short(turn.At), side, quantity.TurnAngle[t.Units].Text(turn.Angle), t.short(turn.Radius), speed.Number(turn.Apex))
	}
}

func (t circuitText) brakings() {
	t.Head(fmt.Sprintf("%d heavy brakings a lap", t.HeavyBrakings))
	if len(t.Brakings) == 0 {
		return
	}
	widths := page.Columns{14, 12, 6, 7, 8}
	speed, slowing, heat := quantity.Velocity[t.Units], quantity.Slowing[t.Units], quantity.BrakeHeat[t.Units]
	table := t.Table(widths, "at", "from "+speed.Name, "to", slowing.Name, heat.Name)
	for _, b := range t.Brakings {
		table.Row(t.short(b.At), speed.Number(b.From), speed.Number(b.To), slowing.Number(b.Decel), heat.Number(b.Energy))
	}
	switch {
	case t.Harder == 1:
	case t.Track == nil:
		t.Tell("", fmt.Sprintf("Its file has the braking at %.0f %% of what its corners alone would take.", 100*t.Harder))
	case t.Track != nil:
		t.Tell("", fmt.Sprintf("The recording's line takes the edge off the sharpest bends: %.0f %% is added to the braking, as much as such lines lose on real circuits; +- %.0f %% is left.", 100*(t.Harder-1), 100*t.BrakeSD))
	}
	if by := 100 * t.ByPower; math.Abs(by) >= 0.5 {
		t.Tell("", fmt.Sprintf("It goes by the power in car.yaml too, since only the lap's time is known: with a tenth more there it would be %+.0f %%.", by))
	}
}

func (t circuitText) lap() {
	t.Head("The lap")
	t.Note("%s of the time on the brakes, %s under power; cornering in %s of it, whatever else is done", page.Percent(t.Braking), page.Percent(t.OnPower), page.Percent(t.Cornering))
	a := t.Against
	t.Note("a km of it against one of the stock reference lap, same car and pace: brakes x%.2f, tread x%.2f, cornering x%.2f, busiest hub x%.2f", a.Brakes, a.Tread, a.Lateral, a.Hub)
}

func (t circuitText) places() {
	t.Head("Each corner of the car")
	widths, load := page.Columns{-6, 11, 10, 15, 14}, quantity.WheelLoad[t.Units].Text
	table := t.Table(widths, "", "mean load", "most", "of the tread", "of the hubs")
	for _, p := range t.Places {
		table.Row("  "+p.Place, load(p.Mean), load(p.Most), page.Percent(p.Slip), page.Percent(p.Hub))
	}
}

func (t circuitText) wear() {
	t.Head(fmt.Sprintf("What it takes: %.1f hot laps in each %.0f min session", t.Laps, float64(t.Sessions.Each)/60))
	widths := page.Columns{-t.Fit(22), -13, 12, 14, 14}
	table := t.Table(widths, "", "first at", "a lap", "an hour", "of its life")
	for _, s := range t.Wear {
		as, where := s.Measure.Info(), s.Where
		if !as.Placed() {
			where = ""
		}
		unit := as.Taken[t.Units]
		table.Row("  "+s.Name, where, unit.Figures(s.PerLap, as.Digits), unit.Figures(s.PerHour, as.Digits), fmt.Sprintf("%.2g %% an h", 100*s.Share))
	}
	if t.Known == plan.BySummary {
		t.Note("By its summary alone these are wider; corners or a recorded track would narrow them.")
	}
}

// Ranking writes a folder's circuits in the order of what they take.
func Ranking(w io.Writer, r *plan.Ranking, v View) error {
	p := newPrinter(w, v)
	p.Fold("", fmt.Sprintf("%s: what an hour of sessions takes from %s, most first", r.Car, r.What))
	p.Line("")
	widths := page.Columns{-p.Fit(24), 12, 12, 9, 2, -21}
	table := p.Table(widths, "", "an hour", "left share", "lap", "", "most of it")
	for i, c := range r.Circuits {
		name := fmt.Sprintf("%2d  %s", i+1, c.Name)
		if c.Known == plan.BySummary {
			name += " *"
		}
		table.Row(name, fmt.Sprintf("%.2g %%", 100*c.PerHour), page.Percent(c.LeftShare), quantity.Lap(c.LapTime), "", c.Most)
	}
	p.Line("")
	p.List("left out: ", r.Left)
	note := "Shares of the life from new to the limit, nominal."
	if strings.HasPrefix(r.What, "everything") || strings.Contains(r.What, ",") {
		note = "Shares of the life from new to the limit, nominal, each set by its own and added up."
	}
	p.Fold("", note+" * known by its summary alone: wider.")
	return p.Flush()
}
