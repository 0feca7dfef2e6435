// Package picture draws a circuit as a page of HTML.
package picture

import (
	_ "embed"
	"errors"
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"
	"strings"

	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/wearmodel/duty"
)

//go:embed picture.html
var pictureForm string

var pictureTemplate = template.Must(template.New("picture").Parse(pictureForm))

// errNoLine is a circuit that cannot be drawn.
var errNoLine = errors.New("known by its summary alone, it has no line to draw")

// The page, in its own units, which are pixels on a screen.
const (
	pageWidth  = 960.0
	mostHeight = 760.0
	pageMargin = 56.0 // around the line
)

// loads are the steps of lateral load that the line is drawn in, g; less is
// drawn as straight. Engineering choice.
var loads = []float64{0.1, 0.3, 0.5, 0.7}

// Write writes a circuit as a page of HTML that needs nothing else: its line
// from above, colored by lateral load, with left and right told apart by a
// pattern too, the heavy brakings, and both lists in words.
func Write(w io.Writer, c *plan.Circuit, units quantity.System) error {
	if len(c.View.Points) < 3 {
		return errNoLine
	}
	return pictureTemplate.Execute(w, newPicture(c, units))
}

// picture is what the page shows.
type picture struct {
	Title, Subtitle, Share, Text string
	Width, Height                float64
	Whole                        string // the path of the lap
	Runs                         []pictureRun
	Brakes                       []pictureBrake
	Labels                       []pictureLabel
	Start                        string // an arrow
	North                        bool
	Scale                        float64 // px
	ScaleText                    string
	Steps                        []pictureStep
	KeyHeight                    int
	Straight                     string // what is no bend
	Turns, Brakings              [][]string
	TurnHeads, BrakingHeads      []string
	Caution                      string

	circuit *plan.Circuit
	at      []plan.ViewPoint // on the page
	perM    float64          // px
}

// pictureRun is a stretch of one side and one step of load.
type pictureRun struct{ Class, Path string }

// Right says whether it is hatched, as right turns are.
func (r pictureRun) Right() bool { return r.Class[0] == 'r' }

// pictureBrake is where the brakes are on: a line beside the lap from a bar.
type pictureBrake struct{ Zone, Bar string }

type pictureLabel struct {
	X, Y  float64
	Text  string
	Brake bool
}

// pictureStep is a line of the legend.
type pictureStep struct {
	Y           float64
	Left, Right string // classes
	Text        string
}

func newPicture(c *plan.Circuit, units quantity.System) *picture {
	speed, short := quantity.Velocity[units], quantity.Ground[units]
	p := &picture{circuit: c, North: c.View.North, Caution: "Lap, speeds and loads are nominal, at the pace given. " + page.Estimate, Straight: fmt.Sprintf("straight, under %.1f g", loads[0])}
	p.lay()
	p.Title = c.Name
	if c.Reverse {
		p.Title += ", in reverse"
	}
	p.Subtitle = strings.Join(slices.DeleteFunc([]string{
		"with " + c.Car, c.From(), quantity.LapLength[units].Text(c.Meters), c.Direction,
		fmt.Sprintf("lap %s at %s pace", quantity.Lap(c.LapTime), page.Percent(c.Pace)), speed.Number(c.MinSpeed) + " to " + speed.Text(c.TopSpeed),
	}, func(s string) bool { return s == "" }), " · ")
	p.Share = fmt.Sprintf("%s of the cornering load is taken in left turns, which load the right-hand wheels; the rest in right turns, which load the left-hand wheels.", page.Spread(c.LeftShare, c.ShareSD))
	p.Text = fmt.Sprintf("The lap from above: %d turns and %d heavy brakings, listed below.", len(c.Turns), len(c.Brakings))

	p.Whole = p.path(0, len(p.at))
	p.runs()
	p.marks()
	p.scale(units)
	for i := len(loads) - 1; i >= 0; i-- {
		text := fmt.Sprintf("over %.1f g", loads[i])
		if i+1 < len(loads) {
			text = fmt.Sprintf("%.1f-%.1f g", loads[i], loads[i+1])
		}
		p.Steps = append(p.Steps, pictureStep{float64(22 * (len(loads) - 1 - i)), fmt.Sprintf("l%d", i+1), fmt.Sprintf("r%d", i+1), text})
	}

	p.KeyHeight = 26 + 22*len(loads)
	p.TurnHeads = []string{"Turn", "At", "To the", "Angle", "Radius", "Slowest"}
	for i, t := range c.Turns {
		side := "right"
		if t.Left {
			side = "left"
		}
		p.Turns = append(p.Turns, []string{fmt.Sprint(i + 1), short.Text(t.At), side, quantity.TurnAngle[units].Text(t.Angle), short.Text(t.Radius), speed.Text(t.Apex)})
	}
	p.BrakingHeads = []string{"Braking", "At", "From", "To", "Slowing"}
	for i, b := range c.Brakings {
		p.Brakings = append(p.Brakings, []string{brakeName(i), short.Text(b.At), speed.Text(b.From), speed.Text(b.To), quantity.Slowing[units].Text(b.Decel)})
	}
	return p
}

// brakeName is B1, B2 and so on: turns have the bare numbers.
func brakeName(i int) string { return fmt.Sprintf("B%d", i+1) }

// lay puts the lap on the page, as large as it goes, north up.
func (p *picture) lay() {
	points := p.circuit.View.Points
	left, right, low, high := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, v := range points {
		left, right, low, high = min(left, v.X), max(right, v.X), min(low, v.Y), max(high, v.Y)
	}
	across, up := max(1, right-left), max(1, high-low)
	p.perM = min((pageWidth-2*pageMargin)/across, (mostHeight-2*pageMargin)/up)
	p.Width, p.Height = pageWidth, math.Round(float64(up*p.perM)+2*pageMargin)
	aside := float64((pageWidth - float64(across*p.perM)) / 2)
	for _, v := range points {
		v.X, v.Y = aside+float64((v.X-left)*p.perM), pageMargin+float64((high-v.Y)*p.perM)
		p.at = append(p.at, v)
	}
}

// point is a place of the lap, counted round it.
func (p *picture) point(i int) plan.ViewPoint {
	n := len(p.at)
	return p.at[(i%n+n)%n]
}

// path is a smooth line from one place over a number of steps: the cubic through
// each two places whose slope is that of their neighbors.
func (p *picture) path(from, steps int) string {
	var b strings.Builder
	a := p.point(from)
	fmt.Fprintf(&b, "M%.1f %.1f", a.X, a.Y)
	for i := from; i < from+steps; i++ {
		before, a, c, after := p.point(i-1), p.point(i), p.point(i+1), p.point(i+2)
		fmt.Fprintf(&b, "C%.1f %.1f %.1f %.1f %.1f %.1f", a.X+(c.X-before.X)/6, a.Y+(c.Y-before.Y)/6, c.X-(after.X-a.X)/6, c.Y-(after.Y-a.Y)/6, c.X, c.Y)
	}
	return b.String()
}

// class is the side and the step of a load, "" where it is next to none.
func class(load float64) string {
	step := 0
	for step < len(loads) && math.Abs(load) >= loads[step]*duty.G {
		step++
	}
	switch {
	case step == 0:
		return ""
	case load > 0:
		return fmt.Sprintf("l%d", step)
	}
	return fmt.Sprintf("r%d", step)
}

// runs cuts the lap into stretches of one class.
func (p *picture) runs() {
	for i := 0; i < len(p.at); {
		steps, is := 1, class(p.at[i].Load)
		for i+steps < len(p.at) && class(p.at[i+steps].Load) == is {
			steps++
		}
		if is != "" {
			p.Runs = append(p.Runs, pictureRun{is, p.path(i, steps)})
		}
		i += steps
	}
}

// along is the place some meters after the start, with the direction there and
// its number.
func (p *picture) along(m float64) (x, y, dx, dy float64, i int) {
	share := float64(m / p.circuit.Meters * float64(len(p.at)))
	i = int(math.Floor(share))
	a, b := p.point(i), p.point(i+1)
	f := share - math.Floor(share)
	x, y = a.X+float64(f*(b.X-a.X)), a.Y+float64(f*(b.Y-a.Y))
	length := max(1e-9, math.Hypot(b.X-a.X, b.Y-a.Y))
	return x, y, (b.X - a.X) / length, (b.Y - a.Y) / length, i
}

// marks puts the start, the turns' numbers, on the outside, and the brakings on
// the page. On the page y grows downward: right of the way is (-dy, dx).
func (p *picture) marks() {
	const bar, beside, number = 15.0, 9.0, 24.0
	x, y, dx, dy, _ := p.along(0)
	// A bar across, and a flag on its left that points the way.
	left := func(off, ahead float64) string {
		return fmt.Sprintf("%.1f %.1f", x+float64(off*dy)+float64(ahead*dx), y-float64(off*dx)+float64(ahead*dy))
	}
	p.Start = "M" + left(-bar, 0) + "L" + left(24, 0) + "L" + left(17, 18) + "L" + left(10, 0)
	p.Labels = append(p.Labels, pictureLabel{X: x + float64(46*dy), Y: y - float64(40*dx), Text: "Start"})
	for i, b := range p.circuit.Brakings {
		long := (float64(b.From*b.From) - float64(b.To*b.To)) / (2 * b.Decel)
		x, y, dx, dy, from := p.along(b.At)
		_, _, _, _, to := p.along(b.At + long)
		var zone strings.Builder
		fmt.Fprintf(&zone, "M%.1f %.1f", x-float64(beside*dy), y+float64(beside*dx))
		for k := from + 1; k <= to; k++ {
			a, c, e := p.point(k-1), p.point(k), p.point(k+1)
			length := max(1e-9, math.Hypot(e.X-a.X, e.Y-a.Y))
			fmt.Fprintf(&zone, "L%.1f %.1f", c.X-float64(beside*(e.Y-a.Y)/length), c.Y+float64(beside*(e.X-a.X)/length))
		}
		p.Brakes = append(p.Brakes, pictureBrake{zone.String(), fmt.Sprintf("M%.1f %.1fL%.1f %.1f", x+float64(bar*dy), y-float64(bar*dx), x-float64(bar*dy), y+float64(bar*dx))})
		p.Labels = append(p.Labels, pictureLabel{X: x - float64(number*dy), Y: y + float64(number*dx), Text: brakeName(i), Brake: true})
	}
	for i, t := range p.circuit.Turns {
		x, y, dx, dy, _ := p.along(t.At + float64(t.Angle*t.Radius/2))
		out := number // to the right of the way
		if !t.Left {
			out = -number
		}
		p.Labels = append(p.Labels, pictureLabel{X: x - float64(out*dy), Y: y + float64(out*dx), Text: fmt.Sprint(i + 1)})
	}
	p.settle()
}

// settle moves labels apart that lie on one another.
func (p *picture) settle() {
	const wide, high, rounds = 26.0, 17.0, 40
	for range rounds {
		for i := range p.Labels {
			for j := range i {
				a, b := &p.Labels[i], &p.Labels[j]
				over := high - math.Abs(a.Y-b.Y)
				if over <= 0 || math.Abs(a.X-b.X) >= wide {
					continue
				}
				if a.Y < b.Y {
					over = -over
				}
				a.Y, b.Y = a.Y+float64(over/2), b.Y-float64(over/2)
			}
		}
	}
	for i := range p.Labels {
		l := &p.Labels[i]
		l.X, l.Y = math.Round(min(max(l.X, 20), p.Width-20)), math.Round(min(max(l.Y, 14), p.Height-10))
	}
}

// scale chooses a round length for the bar.
func (p *picture) scale(units quantity.System) {
	ground := quantity.Ground[units]
	const room = 160.0 // px
	unit := ground.SI(1)
	best := unit
	for decade := 10.0; decade < 1e5; decade *= 10 {
		for _, step := range []float64{1, 2, 5} {
			if m := step * decade * unit; m*p.perM <= room {
				best = m
			}
		}
	}
	p.Scale, p.ScaleText = math.Round(best*p.perM), ground.Text(best)
}
