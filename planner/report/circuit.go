package report

import (
	"fmt"
	"io"
	"math"
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
)

// CircuitOptions say how a circuit is told.
type CircuitOptions struct {
	Units quantity.System
	Plain bool // a sketch of plain characters
}

// Circuit writes what a circuit asks of the car and what it takes.
func Circuit(w io.Writer, c *plan.Circuit, o CircuitOptions) error {
	t := circuitText{newPrinter(w), c, o}
	t.title()
	t.track()
	t.sketch()
	t.turns()
	t.brakings()
	t.lap()
	t.places()
	t.wear()
	t.line("")
	t.fold("", "This is a planning estimate: inspect before every session, whatever it says.")
	return t.Flush()
}

// CircuitJSON writes the same as one object, as JSON does a plan.
func CircuitJSON(w io.Writer, c *plan.Circuit) error { return encode(w, c) }

type circuitText struct {
	printer
	*plan.Circuit
	o CircuitOptions
}

// short is a length along the lap or a radius.
func (t circuitText) short(m float64) string { return quantity.Ground[t.o.Units].Text(m) }

// speed is a whole speed without its unit.
func (t circuitText) speed(v float64) string { return quantity.Velocity[t.o.Units].Number(v) }

func (t circuitText) speedUnit() string { return quantity.Velocity[t.o.Units].Name }

func (t circuitText) title() {
	how := "known by its " + t.Known
	switch t.Known {
	case plan.ByTrack:
		how = "from a recorded track"
	case plan.ByCorners:
		how = "by its corners"
	}
	if t.Reverse {
		how += ", driven in reverse"
	}
	if t.Wet {
		how += ", wet"
	}
	t.fold("", fmt.Sprintf("%s, %s, with %s", t.Name, how, t.Car))
	way := ""
	if t.Direction != "" {
		way = ", " + t.Direction
	}
	t.line("  %s%s, lap %s at %.0f %% pace, %s to %s %s", quantity.LapLength[t.o.Units].Text(t.Meters), way, quantity.Lap(t.LapTime), 100*t.Pace, t.speed(t.MinSpeed), t.speed(t.TopSpeed), t.speedUnit())
	share := fmt.Sprintf("%.0f %%", 100*t.LeftShare)
	if t.ShareSD > 0 {
		share = fmt.Sprintf("%.0f +- %.0f %%", 100*t.LeftShare, math.Max(1, math.Ceil(100*t.ShareSD)))
	}
	lean := "which lean on the right-hand wheels"
	if t.LeftShare < 0.5 {
		lean = "so right turns, which lean on the left-hand wheels, take most"
	}
	t.fold("  ", fmt.Sprintf("left share %s of the cornering load in left turns, %s", share, lean))
}

func (t circuitText) track() {
	if t.Track == nil {
		return
	}
	t.head("The recorded track")
	best, worst := math.Inf(1), 0.0
	for _, s := range t.Track.Laps {
		best, worst = math.Min(best, s), math.Max(worst, s)
	}
	t.fold("  ", fmt.Sprintf("%d hot laps used, %s to %s; %d out and in laps; %.3g fixes a second, which lie within %s of the line",
		len(t.Track.Laps), quantity.Lap(best), quantity.Lap(worst), t.Track.OutIn, t.Track.Rate, t.noise()))
	const most = 6
	for i, why := range t.Track.Dropped {
		if i == most {
			t.line("  and %s more", count(len(t.Track.Dropped)-most, "lap"))
			break
		}
		t.fold("  left out: ", why)
	}
	if t.Track.Lost > 0 {
		t.line("  fixes nowhere near, left out: %d", t.Track.Lost)
	}
	if len(t.Track.Laps) < 3 {
		t.fold("  ", "Few laps: a whole session would be surer.")
	}
}

// noise is the spread of the fixes; where it is told in whole units, one at
// least.
func (t circuitText) noise() string {
	d, noise := quantity.FixSpread[t.o.Units], t.Track.Noise
	if d.Decimals == 0 {
		noise = math.Max(d.SI(1), noise)
	}
	return d.Text(noise)
}

func (t circuitText) sketch() {
	lines := sketch(t.Circuit, t.o.Plain)
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
	left, right := 0, 0
	for _, turn := range t.Turns {
		if turn.Left {
			left++
		} else {
			right++
		}
	}
	t.head(fmt.Sprintf("%d turns to the left, %d to the right", left, right))
	t.line("%s", padLeft("", 4)+padLeft("at", 10)+"  to   "+padLeft("angle", 8)+padLeft("radius", 10)+padLeft("apex "+t.speedUnit(), 12))
	for n, turn := range t.Turns {
		side := "right"
		if turn.Left {
			side = "left "
		}
		t.line("%s", padLeft(fmt.Sprint(n+1), 4)+padLeft(t.short(turn.At), 10)+"  "+side+padLeft(quantity.TurnAngle[t.o.Units].Text(turn.Angle), 8)+padLeft(t.short(turn.Radius), 10)+padLeft(t.speed(turn.Apex), 12))
	}
}

func (t circuitText) brakings() {
	t.head(fmt.Sprintf("%d heavy brakings a lap", t.HeavyBrakings))
	if len(t.Brakings) == 0 {
		return
	}
	slowing, heat := quantity.Slowing[t.o.Units], quantity.BrakeHeat[t.o.Units]
	t.line("%s", padLeft("at", 14)+padLeft("from "+t.speedUnit(), 12)+padLeft("to", 6)+padLeft(slowing.Name, 7)+padLeft(heat.Name, 8))
	for _, b := range t.Brakings {
		t.line("%s", padLeft(t.short(b.At), 14)+padLeft(t.speed(b.From), 12)+padLeft(t.speed(b.To), 6)+padLeft(slowing.Number(b.Decel), 7)+padLeft(heat.Number(b.Energy), 8))
	}
}

func (t circuitText) lap() {
	t.head("The lap")
	t.fold("  ", fmt.Sprintf("%.0f %% of the time on the brakes, %.0f %% under power; cornering in %.0f %% of it, whatever else is done", 100*t.Braking, 100*t.OnPower, 100*t.Cornering))
	a := t.Against
	t.fold("  ", fmt.Sprintf("a km of it against one of the stock reference lap, same car and pace: brakes x%.2f, tread x%.2f, cornering x%.2f, busiest hub x%.2f", a.Brakes, a.Tread, a.Lateral, a.Hub))
}

func (t circuitText) places() {
	t.head("Each corner of the car")
	t.line("%s", pad("", 6)+padLeft("mean load", 11)+padLeft("most", 10)+padLeft("of the tread", 15)+padLeft("of the hubs", 14))
	load := quantity.WheelLoad[t.o.Units].Text
	for _, p := range t.Places {
		t.line("%s", pad("  "+p.Place, 6)+padLeft(load(p.Mean), 11)+padLeft(load(p.Most), 10)+padLeft(fmt.Sprintf("%.0f %%", 100*p.Slip), 15)+padLeft(fmt.Sprintf("%.0f %%", 100*p.Hub), 14))
	}
}

func (t circuitText) wear() {
	t.head(fmt.Sprintf("What it takes: %d hot laps in each %.0f min session", t.Laps, float64(t.Sessions.Each)/60))
	t.line("%s", pad("", 22)+pad("first at", 13)+padLeft("a lap", 12)+padLeft("an hour", 14)+padLeft("of its life", 14))
	for _, s := range t.Wear {
		as := how(s.Measure)
		lap, hour := as.taken[t.o.Units].Figures(s.PerLap, as.figures), as.taken[t.o.Units].Figures(s.PerHour, as.figures)
		where := s.Where
		if !as.placed() {
			where = ""
		}
		t.line("%s", pad("  "+s.Name, 22)+pad(where, 13)+padLeft(lap, 12)+padLeft(hour, 14)+padLeft(perHour(s.Share), 14))
	}
	if t.Known == plan.BySummary {
		t.fold("  ", "By its summary alone these are wider; corners or a recorded track would narrow them.")
	}
}

// perHour is a share of life in an hour.
func perHour(share float64) string { return fmt.Sprintf("%.2g %% an h", 100*share) }

// Ranking writes a folder's circuits in the order of what they take.
func Ranking(w io.Writer, r *plan.Ranking, units quantity.System) error {
	p := newPrinter(w)
	p.fold("", fmt.Sprintf("%s: what an hour of sessions takes from %s, most first", r.Car, r.What))
	p.line("")
	p.line("%s", pad("", 24)+padLeft("an hour", 12)+padLeft("left share", 12)+padLeft("lap", 9)+"  most of it")
	for i, c := range r.Circuits {
		name := fmt.Sprintf("%2d  %s", i+1, c.Name)
		if c.Known == plan.BySummary {
			name += " *"
		}
		p.line("%s", pad(cut(name, 24), 24)+padLeft(fmt.Sprintf("%.2g %%", 100*c.PerHour), 12)+padLeft(quantity.Percent[units].Text(c.LeftShare), 12)+padLeft(quantity.Lap(c.LapTime), 9)+"  "+cut(c.Most, 21))
	}
	p.line("")
	for _, l := range r.Left {
		p.fold("left out: ", l)
	}
	note := "Shares of the life from new to the limit, nominal."
	if strings.HasPrefix(r.What, "everything") || strings.Contains(r.What, ",") {
		note = "Shares of the life from new to the limit, nominal, each set by its own and added up."
	}
	p.fold("", note+" * known by its summary alone: wider.")
	return p.Flush()
}

// RankingJSON writes the same as one object, as JSON does a plan.
func RankingJSON(w io.Writer, r *plan.Ranking) error { return encode(w, r) }
