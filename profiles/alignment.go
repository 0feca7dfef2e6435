package profiles

import (
	"fmt"
	"math"
	"reflect"
	"slices"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

// Alignment is one wheel's static setting. A file may give the toe as an angle
// or as a difference of distances at a diameter, of one wheel (toe) or of both
// wheels of an axle together (toe_total).
type Alignment struct {
	Camber quantity.Angle // negative leans the top in
	Toe    quantity.Angle // of this wheel, positive is toe-in
}

// toe is a toe as written: an angle, or a difference of distances.
type toe struct {
	angle  quantity.Angle
	across quantity.Length
	linear bool
}

// Kind is that of the range.
func (toe) Kind() *quantity.Kind { return quantity.Angle(0).Kind() }

const likeToe = "an angle in deg or min, or a difference in mm or in with toe_diameter"

// wheelSetting and axleSetting are what a file has under a wheel and an axle.
type (
	wheelSetting struct {
		Camber      quantity.Angle  `range:"-10 deg to 10 deg"`
		Toe         toe             `range:"-2 deg to 2 deg"`
		ToeDiameter quantity.Length `range:"250 mm to 900 mm"`
	}
	axleSetting struct {
		ToeTotal    toe             `range:"-4 deg to 4 deg"`
		ToeDiameter quantity.Length `range:"250 mm to 900 mm"`
	}
)

func (d *decoder) toe(n *yaml.Node, name string, f field) {
	var t toe
	v, unit, err := t.Kind().Parse(n.Value)
	if err == nil {
		if !d.inRange(n, name, f, t.Kind(), unit, v) {
			return
		}
		t.angle = quantity.Angle(v)
	} else {
		across, _, wrong := quantity.Offset.Parse(n.Value)
		if wrong != nil {
			d.fail(n, name+": "+err.What, likeToe, "")
			return
		}
		t.across, t.linear = quantity.Length(across), true
	}
	f.value.Set(reflect.ValueOf(t))
}

// alignment decodes the settings of wheels and axles into those of wheels.
func (d *decoder) alignment(n *yaml.Node, path string, f field) {
	if !d.isMapping(n, path, f.words) {
		return
	}
	for key := range pairs(n) {
		if !slices.Contains(f.words, key.Value) {
			d.fail(key, nearest.Unknown("key", key.Value, f.words), nearest.OneOf(f.words), "")
		}
	}
	out := map[string]Alignment{}
	for _, place := range f.words { // wheels, then axles
		value := lookup(n, place)
		if value == nil {
			continue
		}
		p := join(path, place)
		d.at[p] = at(d.file, value)
		both, axle := logbook.Axles[place]
		if !axle {
			var w wheelSetting
			d.mapping(value, p, fieldsIn(&w))
			out[place] = Alignment{Camber: w.Camber, Toe: d.angle(value, "toe", w.Toe, w.ToeDiameter, 1)}
			continue
		}
		var a axleSetting
		d.mapping(value, p, fieldsIn(&a))
		each := d.angle(value, "toe_total", a.ToeTotal, a.ToeDiameter, 2)
		for _, wheel := range both {
			d.share(value, path, wheel, each, out)
		}
	}
	f.value.Set(reflect.ValueOf(out))
}

func (d *decoder) share(n *yaml.Node, path, wheel string, each quantity.Angle, out map[string]Alignment) {
	total := lookup(n, "toe_total")
	if total == nil {
		return
	}
	if own, given := d.at[join(join(path, wheel), "toe")]; given {
		d.fail(total, "toe_total beside the toe of "+wheel, "one of the two", fmt.Sprintf("the wheel's own stands in line %d", own.Line))
		return
	}
	a := out[wheel]
	a.Toe = each
	out[wheel] = a
}

// angle turns a toe as written, of one or of two wheels together, into one
// wheel's. Trigonometry.
func (d *decoder) angle(n *yaml.Node, key string, t toe, diameter quantity.Length, of float64) quantity.Angle {
	value := lookup(n, key)
	switch {
	case value == nil:
		return 0
	case !t.linear:
		return t.angle / quantity.Angle(of)
	case lookup(n, "toe_diameter") == nil:
		d.fail(value, fmt.Sprintf("%s: %s is a difference without a diameter", key, value.Value), "toe_diameter beside it", "write where it was measured: {"+key+": "+value.Value+", toe_diameter: 16 in} for a rim, the tire's diameter for a string round the tires")
		return 0
	case diameter == 0:
		return 0 // reported
	}
	const most = 2 * math.Pi / 180 // rad a wheel
	sine := float64(t.across) / of / float64(diameter)
	if math.Abs(sine) > math.Sin(most) {
		d.fail(value, fmt.Sprintf("%s: %s at that diameter is out of range", key, value.Value), "at most 2 deg a wheel", "")
		return 0
	}
	return quantity.Angle(math.Asin(sine))
}
