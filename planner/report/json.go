package report

import (
	"encoding/json"
	"io"
	"math"
	"reflect"
	"strconv"
	"strings"
	"time"
	"unicode"

	"example.com/tripwear/planner"
)

// digits is how many significant figures JSON numbers keep: more than the
// model has, enough to recompute from.
const digits = 6

// JSON writes the plan as one object: keys in snake case, SI units,
// temperatures in degrees Celsius, shares 0-1, dates YYYY-MM-DD, with THH:MM
// where the hour counts.
func JSON(w io.Writer, p *planner.Plan) error { return object(w, *p) }

// object writes any struct so.
func object(w io.Writer, v any) error {
	enc := json.NewEncoder(w)
	enc.SetIndent("", "  ")
	return enc.Encode(plain(reflect.ValueOf(v)))
}

// plain turns a value into maps, slices and rounded numbers.
func plain(v reflect.Value) any {
	if t, ok := v.Interface().(time.Time); ok {
		if t.IsZero() {
			return nil
		}
		if t.Hour() != 0 || t.Minute() != 0 {
			return t.Format("2006-01-02T15:04")
		}
		return t.Format(time.DateOnly)
	}
	switch v.Kind() {
	case reflect.Struct:
		out := map[string]any{}
		for i := range v.NumField() {
			out[snake(v.Type().Field(i).Name)] = plain(v.Field(i))
		}
		return out
	case reflect.Pointer:
		if v.IsNil() {
			return nil
		}
		return plain(v.Elem())
	case reflect.Slice, reflect.Array:
		out := make([]any, v.Len())
		for i := range out {
			out[i] = plain(v.Index(i))
		}
		return out
	case reflect.Float64:
		return rounded(v.Float())
	default:
		return v.Interface()
	}
}

// rounded keeps six significant figures; what is not a number is null.
func rounded(x float64) any {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return nil
	}
	return json.Number(strconv.FormatFloat(x, 'g', digits, 64))
}

// snake turns a Go name into a key: LapTime is lap_time, PLimit is p_limit,
// P50 is p50, PartName is part_name, LuggageKg is luggage_kg.
func snake(name string) string {
	var b strings.Builder
	runes := []rune(name)
	for i, r := range runes {
		upper := unicode.IsUpper(r)
		after := i > 0 && (unicode.IsLower(runes[i-1]) || i+1 < len(runes) && unicode.IsUpper(runes[i-1]) && unicode.IsLower(runes[i+1]))
		if upper && after {
			b.WriteByte('_')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}
