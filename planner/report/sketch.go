package report

import (
	"math"
	"strconv"
	"strings"

	"example.com/tripwear/planner/plan"
)

// Room for the sketch of a circuit, in characters.
const (
	sketchWidth  = 60
	sketchHeight = 18
)

// canvas is a drawing in characters of dots: two across and four down for
// Braille patterns, which any Unicode terminal has, or one for plain ones.
type canvas struct {
	plain         bool
	width, height int // characters
	across, down  int // dots of a character
	dots          []rune
	labels        map[int]rune
}

func newCanvas(width, height int, plain bool) *canvas {
	c := &canvas{plain: plain, width: width, height: height, across: 2, down: 4, labels: map[int]rune{}}
	if plain {
		c.across, c.down = 1, 1
	}
	c.dots = make([]rune, width*height)
	return c
}

// dot sets one dot.
func (c *canvas) dot(x, y int) {
	col, row := x/c.across, y/c.down
	if x < 0 || y < 0 || col >= c.width || row >= c.height {
		return
	}
	if c.plain {
		c.dots[row*c.width+col] = '.'
		return
	}
	// Unicode 15, block Braille Patterns: the dots of a cell by their bits.
	bits := [4][2]rune{{0x01, 0x08}, {0x02, 0x10}, {0x04, 0x20}, {0x40, 0x80}}
	c.dots[row*c.width+col] |= bits[y%4][x%2]
}

// label writes over a character where there is room for all of the text.
func (c *canvas) label(x, y int, text string) {
	col, row := x/c.across, y/c.down
	col = max(0, min(col, c.width-len(text)))
	for i := range text {
		if c.labels[row*c.width+col+i] != 0 {
			return
		}
	}
	for i, r := range text {
		c.labels[row*c.width+col+i] = r
	}
}

func (c *canvas) lines() []string {
	var out []string
	for row := range c.height {
		var b strings.Builder
		for col := range c.width {
			i := row*c.width + col
			switch {
			case c.labels[i] != 0:
				b.WriteRune(c.labels[i])
			case c.dots[i] == 0:
				b.WriteByte(' ')
			case c.plain:
				b.WriteRune(c.dots[i])
			case !c.plain:
				b.WriteRune(0x2800 + c.dots[i])
			}
		}
		out = append(out, strings.TrimRight(b.String(), " "))
	}
	for len(out) > 0 && out[len(out)-1] == "" {
		out = out[:len(out)-1]
	}
	return out
}

// sketch draws a circuit from above with the start (S), the way it is driven
// (> < ^ v after it) and the numbers of its turns.
func sketch(c *plan.Circuit, columns int, plain bool) []string {
	points := c.View.Points
	if len(points) < 3 {
		return nil
	}
	canvas := newCanvas(min(sketchWidth, columns), sketchHeight, plain)
	minX, maxX, minY, maxY := math.Inf(1), math.Inf(-1), math.Inf(1), math.Inf(-1)
	for _, p := range points {
		minX, maxX = math.Min(minX, p.X), math.Max(maxX, p.X)
		minY, maxY = math.Min(minY, p.Y), math.Max(maxY, p.Y)
	}
	// A character is about twice as high as wide, so Braille dots are square.
	tall := 1.0
	if plain {
		tall = 2
	}
	dotsX, dotsY := float64(canvas.width*canvas.across-3), float64(canvas.height*canvas.down-3)
	scale := math.Min(dotsX/math.Max(1, maxX-minX), dotsY*tall/math.Max(1, maxY-minY))
	at := func(x, y float64) (int, int) {
		return 1 + int(math.Round((x-minX)*scale)), 1 + int(math.Round((maxY-y)*scale/tall))
	}
	for i, a := range points {
		b := points[(i+1)%len(points)]
		steps := 1 + int(2*scale*math.Hypot(b.X-a.X, b.Y-a.Y))
		for k := range steps {
			f := float64(k) / float64(steps)
			canvas.dot(at(a.X+float64(f*(b.X-a.X)), a.Y+float64(f*(b.Y-a.Y))))
		}
	}
	x, y := at(points[0].X, points[0].Y)
	canvas.label(x, y, "S")
	ahead := points[len(points)/40+1]
	x, y = at(ahead.X, ahead.Y)
	canvas.label(x, y, arrow(ahead.X-points[0].X, ahead.Y-points[0].Y))
	for n, t := range c.Turns {
		middle := t.At + float64(t.Angle*t.Radius/2)
		p := points[int(middle/c.Meters*float64(len(points)))%len(points)]
		x, y := at(p.X, p.Y)
		canvas.label(x, y, strconv.Itoa(n+1))
	}
	return canvas.lines()
}

// arrow is a direction in one character.
func arrow(x, y float64) string {
	switch {
	case math.Abs(x) >= math.Abs(y) && x >= 0:
		return ">"
	case math.Abs(x) >= math.Abs(y):
		return "<"
	case y > 0:
		return "^"
	}
	return "v"
}
