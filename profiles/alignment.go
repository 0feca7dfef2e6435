package profiles

import (
	"fmt"
	"math"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// Alignments are the static settings of the wheels, by place; a file may give
// those of an axle.
type Alignments map[string]Alignment

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

// wheelSetting and axleSetting are what a file has under a wheel and an axle.
type (
	wheelSetting struct {
		Camber      quantity.Angle  `range:"-10 deg to 10 deg" doc:"negative leans the top in"`
		Toe         toe             `range:"-2 deg to 2 deg" doc:"positive is toe-in; in deg or min, or a difference at a diameter"`
		ToeDiameter quantity.Length `range:"250 mm to 900 mm" doc:"where a difference was measured"`
	}
	axleSetting struct {
		ToeTotal    toe             `range:"-4 deg to 4 deg" doc:"of both wheels, positive is toe-in"`
		ToeDiameter quantity.Length `range:"250 mm to 900 mm" doc:"where a difference was measured"`
	}
)

// Like is how a toe is written.
func (toe) Like() string {
	return "an angle in deg or min, or a difference in mm or in with toe_diameter"
}

// Read reads an angle within the field's range, or a difference.
func (t *toe) Read(text string, f decode.Field) *quantity.Error {
	v, unit, err := t.Kind().Parse(text)
	if err == nil {
		*t = toe{angle: quantity.Angle(v)}
		return f.InRange(text, t.Kind(), unit, v)
	}
	across, _, wrong := quantity.Offset.Parse(text)
	if wrong != nil {
		return &quantity.Error{What: err.What, Expected: t.Like()}
	}
	*t = toe{across: quantity.Length(across), linear: true}
	return nil
}

// Fields lists the keys of a wheel's setting or of an axle's.
func (Alignments) Fields(word string) []decode.Field {
	if _, axle := logbook.Axles[word]; axle {
		return decode.FieldsIn(&axleSetting{})
	}
	return decode.FieldsIn(&wheelSetting{})
}

// Decode decodes the settings of wheels and axles into those of wheels.
func (a *Alignments) Decode(d *decode.Decoder, n *yaml.Node, path string, f decode.Field) {
	if !d.IsMapping(n, path, f.Words) {
		return
	}
	given := d.ByWord(n, f.Words)
	out := Alignments{}
	for _, place := range f.Words { // wheels, then axles
		value, ok := given[place]
		if !ok {
			continue
		}
		p := decode.Join(path, place)
		d.Seen(value, p)
		both, isAxle := logbook.Axles[place]
		if !isAxle {
			var w wheelSetting
			d.Mapping(value, p, decode.FieldsIn(&w))
			out[place] = Alignment{Camber: w.Camber, Toe: angleOf(d, value, "toe", w.Toe, w.ToeDiameter, 1)}
			continue
		}
		var axle axleSetting
		d.Mapping(value, p, decode.FieldsIn(&axle))
		each := angleOf(d, value, "toe_total", axle.ToeTotal, axle.ToeDiameter, 2)
		for _, wheel := range both {
			out.share(d, value, path, wheel, each)
		}
	}
	*a = out
}

func (a Alignments) share(d *decode.Decoder, n *yaml.Node, path, wheel string, each quantity.Angle) {
	total := decode.Lookup(n, "toe_total")
	if total == nil {
		return
	}
	if own, given := d.At[decode.Join(decode.Join(path, wheel), "toe")]; given {
		d.Fail(total, "toe_total beside the toe of "+wheel, "one of the two", "the wheel's own stands in "+own.Again())
		return
	}
	a[wheel] = Alignment{Camber: a[wheel].Camber, Toe: each}
}

// angleOf turns a toe as written, of one or of two wheels together, into one
// wheel's. Trigonometry.
func angleOf(d *decode.Decoder, n *yaml.Node, key string, t toe, diameter quantity.Length, of float64) quantity.Angle {
	value := decode.Lookup(n, key)
	switch {
	case value == nil:
		return 0
	case !t.linear:
		return t.angle / quantity.Angle(of)
	case decode.Lookup(n, "toe_diameter") == nil:
		d.Fail(value, fmt.Sprintf("%s: %s is a difference without a diameter", key, value.Value), "toe_diameter beside it", "write where it was measured: {"+key+": "+value.Value+", toe_diameter: 16 in} for a rim, the tire's diameter for a string round the tires")
		return 0
	case diameter == 0:
		return 0 // reported
	}
	const most = 2 * math.Pi / 180 // rad a wheel
	sine := float64(t.across) / of / float64(diameter)
	if math.Abs(sine) > math.Sin(most) {
		d.Fail(value, fmt.Sprintf("%s: %s at that diameter is out of range", key, value.Value), "at most 2 deg a wheel", "")
		return 0
	}
	return quantity.Angle(math.Asin(sine))
}
