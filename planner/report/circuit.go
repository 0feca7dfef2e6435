package report

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// CircuitOptions say how a circuit is printed.
type CircuitOptions struct {
	Units quantity.System
	Plain bool // a sketch of plain characters
}

// Circuit writes what a circuit asks of the car and what it takes.
func Circuit(w io.Writer, c *plan.Circuit, o CircuitOptions) error {
	t := circuitText{newPrinter(w, o.Units), c}
	t.title()
	t.track()
	t.drawn()
	t.sketch(o.Plain)
	t.turns()
	t.brakings()
	t.lap()
	t.places()
	t.wear()
	t.line("")
	t.fold("", estimate)
	return t.Flush()
}

// estimate is the caution under every answer.
const estimate = "This is a planning estimate: inspect before every session, whatever it says."

type circuitText struct {
	printer
	*plan.Circuit
}

// short is a length along the lap or a radius.
func (t circuitText) short(m float64) string { return quantity.Ground[t.units].Text(m) }

// knownBy says where a circuit's figures come from.
func knownBy(c *plan.Circuit) string {
	switch c.Known {
	case plan.ByTrack:
		return "from a recorded track"
	case plan.ByMap:
		return "from a map"
	case plan.ByCorners:
		return "by its corners"
	}
	return "known by its " + c.Known
}

// leftShare is the share with its deviation, where it has one.
func leftShare(c *plan.Circuit) string {
	if c.ShareSD > 0 {
		return fmt.Sprintf("%.0f +- %.0f %%", 100*c.LeftShare, math.Max(1, math.Ceil(100*c.ShareSD)))
	}
	return percent(c.LeftShare)
}

func (t circuitText) title() {
	how := knownBy(t.Circuit)
	if t.Reverse {
		how += ", driven in reverse"
	}
	if t.Wet {
		how += ", wet"
	}
	t.fold("", fmt.Sprintf("%s, %s, with %s", t.Name, how, t.Car))
	way, speed := "", quantity.Velocity[t.units]
	if t.Direction != "" {
		way = ", " + t.Direction
	}
	t.line("  %s%s, lap %s at %s pace, %s to %s", quantity.LapLength[t.units].Text(t.Meters), way, quantity.Lap(t.LapTime), percent(t.Pace), speed.Number(t.MinSpeed), speed.Text(t.TopSpeed))
	if t.Told != nil {
		t.note("%s.", sentence(t.Told.Words()))
	}
	load := "which lean on the right-hand wheels"
	if t.LeftShare < 0.5 {
		load = "so right turns, which lean on the left-hand wheels, take most"
	}
	t.note("left share %s of the cornering load in left turns, %s", leftShare(t.Circuit), load)
}

func (t circuitText) track() {
	if t.Track == nil {
		return
	}
	t.head("The recorded track")
	t.note("%d hot laps used, %s to %s; %d out and in laps; %.3g fixes a second, which lie within %s of the line",
		len(t.Track.Laps), quantity.Lap(slices.Min(t.Track.Laps)), quantity.Lap(slices.Max(t.Track.Laps)), t.Track.OutIn, t.Track.Rate, t.noise())
	const most = 6
	dropped := t.Track.Dropped
	t.list("  left out: ", dropped[:min(most, len(dropped))])
	if n := len(dropped) - most; n > 0 {
		t.line("  and %s more", count(n, "lap"))
	}
	if t.Track.Lost > 0 {
		t.line("  fixes nowhere near, left out: %d", t.Track.Lost)
	}
	if t.Track.Held {
		t.note("No pace of this car from 40 to 105 %% gives these laps: the nearest is taken, and lap, speeds and wear are those of that pace. Length, direction, turns and left share hold whatever the car.")
	}
	if len(t.Track.Laps) < 3 {
		t.note("Few laps: a whole session would be surer.")
	}
}

// drawn says what a map holds, and what it cannot say.
func (t circuitText) drawn() {
	m := t.Map
	if m == nil {
		return
	}
	t.head("The map")
	every, ends := t.Meters/float64(m.Points), "its ends meet"
	if m.Gap > 2*every {
		ends = "its ends, " + t.short(m.Gap) + " apart, were joined"
	}
	if least := quantity.Ground[t.units].SI(1); every >= least {
		ends = "one every " + t.short(every) + "; " + ends
	}
	t.note("%q: %d points, %s", m.Line, m.Points, ends)
	if m.Widths {
		t.note("driven on the line of least curvature between the edges that the map has")
	} else {
		t.note("the map has no widths: %s to either side assumed; driven on the line of least curvature between those edges", t.short(m.Assumed))
	}
	if m.Lat != nil {
		t.note("it begins at %s: if that is another place, lat and lon are exchanged and left is right", position(*m.Lat, *m.Lon))
	}
	t.note("At this pace the lap is known within +-%.0f %% and its braking energy within +-%.0f %%, most of it since a driver's own line is not one of least curvature. A recording with times will do better: save it in the place of this.",
		math.Ceil(100*m.TimeSD), math.Ceil(100*t.BrakeSD))
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
	d, noise := quantity.FixSpread[t.units], t.Track.Noise
	if d.Decimals == 0 {
		noise = math.Max(d.SI(1), noise)
	}
	return d.Text(noise)
}

func (t circuitText) sketch(plain bool) {
	lines := sketch(t.Circuit, plain)
	if len(lines) == 0 {
		return
	}
	north := ""
	if t.View.North {
		north = ", north up"
	}
	t.head("From above" + north)
	for _, l := range lines {
		t.line("  %s", l)
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
	t.head(fmt.Sprintf("%d turns to the left, %d to the right", left, len(t.Turns)-left))
	widths, speed := columns{4, 10, -7, 8, 10, 12}, quantity.Velocity[t.units]
	t.row(widths, "", "at", "  to", "angle", "radius", "apex "+speed.Name)
	for n, turn := range t.Turns {
		side := "  right"
		if turn.Left {
			side = "  left"
		}
		t.row(widths, fmt.Sprint(n+1), t.short(turn.At), side, quantity.TurnAngle[t.units].Text(turn.Angle), t.short(turn.Radius), speed.Number(turn.Apex))
	}
}

func (t circuitText) brakings() {
	t.head(fmt.Sprintf("%d heavy brakings a lap", t.HeavyBrakings))
	if len(t.Brakings) == 0 {
		return
	}
	widths := columns{14, 12, 6, 7, 8}
	speed, slowing, heat := quantity.Velocity[t.units], quantity.Slowing[t.units], quantity.BrakeHeat[t.units]
	t.row(widths, "at", "from "+speed.Name, "to", slowing.Name, heat.Name)
	for _, b := range t.Brakings {
		t.row(widths, t.short(b.At), speed.Number(b.From), speed.Number(b.To), slowing.Number(b.Decel), heat.Number(b.Energy))
	}
	switch {
	case t.Harder == 1:
	case t.Track == nil:
		t.say("", fmt.Sprintf("Its file has the braking at %.0f %% of what its corners alone would take.", 100*t.Harder))
	default:
		t.say("", fmt.Sprintf("The recording's line takes the edge off the sharpest bends: %.0f %% is added to the braking, as much as such lines lose on real circuits; +- %.0f %% is left.", 100*(t.Harder-1), 100*t.BrakeSD))
	}
}

func (t circuitText) lap() {
	t.head("The lap")
	t.note("%s of the time on the brakes, %s under power; cornering in %s of it, whatever else is done", percent(t.Braking), percent(t.OnPower), percent(t.Cornering))
	a := t.Against
	t.note("a km of it against one of the stock reference lap, same car and pace: brakes x%.2f, tread x%.2f, cornering x%.2f, busiest hub x%.2f", a.Brakes, a.Tread, a.Lateral, a.Hub)
}

func (t circuitText) places() {
	t.head("Each corner of the car")
	widths, load := columns{-6, 11, 10, 15, 14}, quantity.WheelLoad[t.units].Text
	t.row(widths, "", "mean load", "most", "of the tread", "of the hubs")
	for _, p := range t.Places {
		t.row(widths, "  "+p.Place, load(p.Mean), load(p.Most), percent(p.Slip), percent(p.Hub))
	}
}

func (t circuitText) wear() {
	t.head(fmt.Sprintf("What it takes: %.1f hot laps in each %.0f min session", t.Laps, float64(t.Sessions.Each)/60))
	widths := columns{-t.fit(22), -13, 12, 14, 14}
	t.row(widths, "", "first at", "a lap", "an hour", "of its life")
	for _, s := range t.Wear {
		as, where := s.Measure.Info(), s.Where
		if !as.Placed() {
			where = ""
		}
		unit := as.Taken[t.units]
		t.row(widths, "  "+s.Name, where, unit.Figures(s.PerLap, as.Digits), unit.Figures(s.PerHour, as.Digits), fmt.Sprintf("%.2g %% an h", 100*s.Share))
	}
	if t.Known == plan.BySummary {
		t.note("By its summary alone these are wider; corners or a recorded track would narrow them.")
	}
}

// Ranking writes a folder's circuits in the order of what they take.
func Ranking(w io.Writer, r *plan.Ranking, units quantity.System) error {
	p := newPrinter(w, units)
	p.fold("", fmt.Sprintf("%s: what an hour of sessions takes from %s, most first", r.Car, r.What))
	p.line("")
	widths := columns{-p.fit(24), 12, 12, 9, 2, -21}
	p.row(widths, "", "an hour", "left share", "lap", "", "most of it")
	for i, c := range r.Circuits {
		name := fmt.Sprintf("%2d  %s", i+1, c.Name)
		if c.Known == plan.BySummary {
			name += " *"
		}
		p.row(widths, name, fmt.Sprintf("%.2g %%", 100*c.PerHour), percent(c.LeftShare), quantity.Lap(c.LapTime), "", c.Most)
	}
	p.line("")
	p.list("left out: ", r.Left)
	note := "Shares of the life from new to the limit, nominal."
	if strings.HasPrefix(r.What, "everything") || strings.Contains(r.What, ",") {
		note = "Shares of the life from new to the limit, nominal, each set by its own and added up."
	}
	p.fold("", note+" * known by its summary alone: wider.")
	return p.Flush()
}
