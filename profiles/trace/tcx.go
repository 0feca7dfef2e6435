package trace

import "encoding/xml"

// tcx reads Training Center XML: activities are a recording, courses are lines
// of a map, for their times are planned ones. Source of the format: the
// published schemas TrainingCenterDatabase v2 and ActivityExtension v2, the
// names and the speed in m/s from memory.
type tcx struct {
	node
	course bool
}

func (c *tcx) name() string { return "TCX" }

// within is what stands in a Trackpoint.
var within = map[string]string{
	"Time": "time", "LatitudeDegrees": "lat", "LongitudeDegrees": "lon", "AltitudeMeters": "ele", "Speed": "speed",
}

func (c *tcx) start(w *walker, t xml.StartElement) *Error {
	switch name := t.Name.Local; {
	case name == "Trackpoint":
		return c.begin(w, name)
	case c.inside > 0:
		if within[name] != "" {
			w.want(value, false)
		}
	case name == "Course" || name == "Activity":
		*c = tcx{node{fresh: true}, name == "Course"}
	case name == "Track":
		w.gap = true
	case name == "Name" && w.parent() == "Course":
		w.want(value, true)
	}
	return nil
}

func (c *tcx) end(w *walker, name, text string, asked bool) *Error {
	switch {
	case asked && c.inside == 0:
		c.title = text
	case asked:
		return c.value(within[name], text)
	case !c.ends(w):
	case c.placeless():
		w.gap = true // a lost fix
	case c.course:
		return c.draw(w)
	case !c.timed:
		return c.placed(&Error{What: "a Trackpoint without a time", Expected: "<Time> in every one", Hint: "export the activity as recorded"})
	default:
		return c.record(w)
	}
	return nil
}
