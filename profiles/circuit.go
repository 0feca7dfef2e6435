package profiles

import (
	"fmt"
	"slices"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
)

// Circuit is a place to drive, known by its summary, corner by corner, by a
// recorded track, or by a map.
type Circuit struct {
	ID            string            `key:"-"`
	Name          string            `need:"yes" doc:"what it is called"`
	Length        quantity.Length   `range:"0.2 km to 100 km" doc:"of a lap"`
	LapTime       quantity.Duration `range:"10 s to 60 min" doc:"your typical lap; or leave it out and give a pace on the leg"`
	Pace          string            `doc:"what the lap time was driven at"`
	LeftShare     quantity.Share    `range:"0 % to 100 %" doc:"share of the cornering load taken in left turns"`
	HeavyBrakings int               `range:"0 to 200" doc:"a lap; may be left out"`
	Corners       []Corner          // corner by corner
	Braking       quantity.Share    `range:"50 % to 200 %" doc:"beside corners: the share of their braking that a lap takes; left out, all of it"`
	GPX           string            `doc:"a recorded track or a map: a GPX file"`
	CSV           string            `doc:"the same as a CSV file"`
	Track         Files             `doc:"the same in any format that is read, or several recordings"`
	Line          string            `doc:"which line of a map, by its name or its number"`

	Trace   *trace.Trace `key:"-"` // the recorded track that the file holds
	Map     *trace.Line  `key:"-"` // or the line of its map
	File    string       `key:"-"` // that file, as messages name it
	Notes   []string     `key:"-"` // what was left out of it, with the file and the line
	Sources Sources      `key:"-"`
}

// BySummary says whether nothing is known of the circuit's corners.
func (c Circuit) BySummary() bool { return len(c.Corners) == 0 && c.Trace == nil && c.Map == nil }

// Files are the files of the car folder that the circuit names.
func (c Circuit) Files() []string {
	all := slices.Clone([]string(c.Track))
	for _, file := range []string{c.GPX, c.CSV} {
		if file != "" {
			all = append(all, file)
		}
	}
	return all
}

// Corner is a straight, a turn, or a straight and the turn at its end.
type Corner struct {
	Straight quantity.Length `range:"0 m to 20 km" doc:"before the turn"`
	Turn     quantity.Angle  `as:"turn" range:"-720 deg to 720 deg" doc:"the angle and its direction, such as 90 deg left"`
	Radius   quantity.Length `range:"3 m to 20 km" doc:"of the tighter half of the turn"`
}

// At is where a circuit's file says what it is: its lap time, its length or its
// first line.
func (c Circuit) At() Position {
	for _, key := range []string{"lap_time", "corners", "length"} {
		if s, ok := c.Sources[key]; ok && s.Line > 0 {
			return s.Position
		}
	}
	return Position{File: "circuits/" + c.ID + ".yaml", Line: 1, Column: 1}
}

// Files are paths inside the car folder, written as one or as a list.
type Files []string

// Decode reads one path or a list of them.
func (f *Files) Decode(d *decode.Decoder, n *yaml.Node, path string, _ decode.Field) {
	nodes := []*yaml.Node{n}
	if n.Kind == yaml.SequenceNode {
		nodes = n.Content
	}
	for i, node := range nodes {
		d.Seen(node, fmt.Sprintf("%s[%d]", path, i))
		switch {
		case node.Kind != yaml.ScalarNode || node.Value == "":
			d.Fail(node, path+" is "+decode.Form(node), "a file of the car folder, or a list of such files", "")
		case slices.Contains(*f, node.Value):
			d.Fail(node, fmt.Sprintf("%s: %q is given twice", path, nearest.Cut(node.Value)), "each once", "")
		default:
			*f = append(*f, node.Value)
		}
	}
}
