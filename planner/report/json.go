package report

import (
	"io"
	"math"
	"strconv"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"example.com/tripwear/profiles/quantity"
)

// digits is how many significant figures JSON numbers keep: more than the
// model has, enough to recompute from.
const digits = 6

// JSON writes a result as one object: keys sorted and in snake case, SI units,
// temperatures in degrees Celsius, shares 0-1, dates YYYY-MM-DD, with THH:MM
// where the hour counts.
func JSON(w io.Writer, result any) error {
	text, err := json.Marshal(result, jsontext.AllowInvalidUTF8(true), json.WithMarshalers(json.JoinMarshalers(
		json.MarshalFunc(rounded[float64]), json.MarshalFunc(rounded[quantity.Length]), json.MarshalFunc(rounded[quantity.Duration]),
		json.MarshalFunc(date))))
	if err != nil {
		return err
	}
	value := jsontext.Value(text)
	if err := value.Format(jsontext.ReorderRawObjects(true), jsontext.EscapeForHTML(true), jsontext.EscapeForJS(true), jsontext.WithIndent("  ")); err != nil {
		return err
	}
	_, err = w.Write(append(value, '\n'))
	return err
}

// rounded keeps six significant figures; what is not a number is null.
func rounded[T ~float64](x T) ([]byte, error) {
	if math.IsNaN(float64(x)) || math.IsInf(float64(x), 0) {
		return []byte("null"), nil
	}
	return strconv.AppendFloat(nil, float64(x), 'g', digits, 64), nil
}

// date is a day, with the hour where it counts; none is null.
func date(t time.Time) ([]byte, error) {
	switch {
	case t.IsZero():
		return []byte("null"), nil
	case t.Hour() != 0 || t.Minute() != 0:
		return []byte(t.Format(`"2006-01-02T15:04"`)), nil
	}
	return []byte(t.Format(`"` + time.DateOnly + `"`)), nil
}
