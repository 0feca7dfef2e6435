package sheet

import (
	"encoding/xml"
	"errors"
	"math"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// Form is what a cell holds: how its program shows a number tells what was typed.
type Form int

// The forms of a cell.
const (
	Number   Form = iota
	Percent       // a number shown with a percent sign
	Fraction      // a number shown as a fraction
	Day           // a number shown as a day
	Hours         // a number of days shown as hours and minutes
	Clock         // the same, with seconds
	Text
	Truth // yes or no: Text is true or false
	Wrong // an error: Text is its name
)

// Cell is a cell as it is stored.
type Cell struct {
	Text    string // of a number its digits
	Form    Form
	Formula string // "" where it was typed; Text is then its last result
	Array   bool   // the formula fills several cells
}

// days1904 is how much later the days of some workbooks are counted from;
// ISO/IEC 29500-1, 18.17.4.1.
const days1904 = 1462

// cell reads a cell that has begun.
func (b *Book) cell(d *xml.Decoder, e xml.StartElement) (Cell, error) {
	var x struct {
		Result  *string `xml:"v"`
		Inline  rich    `xml:"is"`
		Formula *struct {
			Type   string `xml:"t,attr"`
			Shared string `xml:"si,attr"`
			Text   string `xml:",chardata"`
		} `xml:"f"`
	}
	if err := d.DecodeElement(&x, &e); err != nil {
		return Cell{}, err
	}
	var result string
	if x.Result != nil {
		result = *x.Result
	}
	c := Cell{Text: result, Form: Text}
	if x.Formula != nil {
		c.Formula, c.Array = "="+x.Formula.Text, x.Formula.Type == "array"
	}
	switch attribute(e, "t") {
	case "s":
		i, err := strconv.Atoi(strings.TrimSpace(result))
		if err != nil || i < 0 || i >= len(b.texts) {
			return Cell{}, errNoText
		}
		c.Text = b.texts[i]
	case "inlineStr":
		c.Text = x.Inline.text()
	case "e":
		c.Form = Wrong
	case "b":
		c.Form, c.Text = Truth, strconv.FormatBool(strings.TrimSpace(result) == "1")
	case "d":
		c.Text = strings.TrimSuffix(result, "T00:00:00")
	case "str":
		if x.Result != nil && result == "" { // a formula whose result is nothing
			return Cell{}, nil
		}
	default:
		c.Form = Number
	}
	if c.Text == "" && c.Formula == "" {
		return Cell{}, nil
	}
	if style, err := strconv.Atoi(attribute(e, "s")); err == nil && c.Form == Number && style >= 0 && style < len(b.formats) {
		c.Form = b.formats[style]
		if x, err := strconv.ParseFloat(c.Text, 64); err == nil && c.Form == Day && b.from > 0 {
			c.Text = strconv.FormatFloat(x+float64(b.from), 'f', -1, 64)
		}
	}
	return c, nil
}

// Day is the day that a number of days is; false where it is none.
// ISO/IEC 29500-1, 18.17.4.1: from the end of 1899, as all programs read it from
// March 1900 on.
func (c Cell) Day() (time.Time, bool) {
	x, err := strconv.ParseFloat(c.Text, 64)
	if err != nil || !(x >= 61 && x < 110_000) {
		return time.Time{}, false
	}
	return time.Date(1899, 12, 30+int(x), 0, 0, 0, 0, time.UTC), true
}

// Serial is the number that a day is stored as.
func Serial(day time.Time) int {
	return int(math.Round(day.Sub(time.Date(1899, 12, 30, 0, 0, 0, 0, time.UTC)).Hours() / 24))
}

// Digits is a number in the fewest digits that mean it, at most 15: what a
// program shows of it.
func (c Cell) Digits() string {
	x, err := strconv.ParseFloat(strings.TrimSpace(c.Text), 64)
	if err != nil {
		return c.Text
	}
	x, _ = strconv.ParseFloat(strconv.FormatFloat(x, 'g', 15, 64), 64) // its own output parses
	if math.Abs(x) >= 1e15 {
		return strconv.FormatFloat(x, 'g', -1, 64)
	}
	return strconv.FormatFloat(x, 'f', -1, 64)
}

// unshown is what a number format says apart from the number.
var unshown = regexp.MustCompile(`"[^"]*"|\\.|_.|\*.|\[[^hmsHMS\]][^\]]*\]`)

// shown is how a number format shows a number; ISO/IEC 29500-1, 18.8.30 and 18.8.31.
func shown(id int, code string) Form {
	switch {
	case id == 9 || id == 10:
		return Percent
	case id == 12 || id == 13:
		return Fraction
	case id >= 14 && id <= 17 || id == 22 || id >= 27 && id <= 31 || id >= 50 && id <= 58:
		return Day
	case id == 18 || id == 20 || id == 32 || id == 34 || id == 35:
		return Hours
	case id == 19 || id == 21 || id == 33 || id == 36 || id >= 45 && id <= 47:
		return Clock
	}
	code, _, _ = strings.Cut(strings.ToLower(unshown.ReplaceAllString(code, "")), ";")
	switch {
	case strings.Contains(code, "general"), code == "@":
	case strings.Contains(code, "%"):
		return Percent
	case strings.ContainsAny(code, "yd"):
		return Day
	case strings.Contains(code, "s"):
		return Clock
	case strings.Contains(code, "h"):
		return Hours
	case strings.Contains(code, "m"):
		return Day
	case strings.Contains(code, "/"):
		return Fraction
	}
	return Number
}

// cellForms is how numbers are shown, by the style of a cell; a package may have
// no styles.
func (b *Book) cellForms() (out []Form, err error) {
	codes, cells := map[int]string{}, false
	err = b.walk("xl/styles.xml", func(_ *xml.Decoder, e xml.StartElement) error {
		id, _ := strconv.Atoi(attribute(e, "numFmtId")) // 0 is the general one
		switch e.Name.Local {
		case "numFmt":
			codes[id] = attribute(e, "formatCode")
		case "cellXfs":
			cells = true
		case "cellStyles", "dxfs":
			cells = false
		case "xf":
			if cells {
				out = append(out, shown(id, codes[id]))
			}
		}
		return nil
	})
	if errors.Is(err, errMissing) {
		err = nil
	}
	return out, err
}
