package trace

import (
	"bufio"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"math"
	"regexp"
	"strconv"
	"strings"
)

// CSV reads a table of fixes: a header, then a row a fix. The columns time,
// lat and lon must be there, speed and ele may, in any order and with others
// between them; the header gives the unit where there is a choice, such as
// "time (s)" or "speed (km/h)". Times are seconds, dates with times, or clock
// times, which may go past midnight. Cells are set apart by commas, semicolons
// (with which numbers may have decimal commas) or tabs; a row without a place
// is a lost fix; lines that begin with # are remarks.
func CSV(r io.Reader) (*Trace, error) { return readCSV(r, usual) }

func readCSV(r io.Reader, most bounds) (*Trace, error) {
	b := bufio.NewReader(&limited{r, most.bytes})
	if mark, _ := b.Peek(3); string(mark) == "\ufeff" {
		b.Discard(3)
	}
	c := csvReader{builder: builder{bounds: most}, r: csv.NewReader(b)}
	c.r.ReuseRecord = true
	c.r.Comment = '#'
	c.r.TrimLeadingSpace = true
	c.r.FieldsPerRecord = -1
	head, _ := b.Peek(4096)
	c.r.Comma = comma(string(head))
	for {
		row, err := c.r.Read()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			return nil, c.syntax(err)
		}
		bad := c.row(row)
		if bad != nil {
			if bad.Line == 0 {
				bad.Line, bad.Column = c.r.FieldPos(0)
			}
			return nil, bad
		}
	}
	if c.columns == nil {
		return nil, &Error{What: "the file is empty", Expected: "a header such as time (s), lat, lon"}
	}
	return c.done()
}

// comma finds what sets the cells of the header apart.
func comma(head string) rune {
	for line := range strings.Lines(head) {
		if line = strings.TrimSpace(line); line == "" || strings.HasPrefix(line, "#") {
			continue
		}
		for _, mark := range []rune{';', '\t'} {
			if strings.ContainsRune(line, mark) {
				return mark
			}
		}
		break
	}
	return ','
}

type csvReader struct {
	builder
	r       *csv.Reader
	columns map[string]column // by name
	cells   int               // of the row in hand
}

// column is where a value stands and what makes it SI.
type column struct {
	at    int
	scale float64 // 0 where the header gives no unit
}

// names are the words a header may use for a column.
var names = map[string]string{
	"time": "time", "timestamp": "time", "utc": "time", "seconds": "time",
	"lat": "lat", "latitude": "lat",
	"lon": "lon", "lng": "lon", "long": "lon", "longitude": "lon",
	"speed": "speed", "velocity": "speed",
	"ele": "ele", "elevation": "ele", "alt": "ele", "altitude": "ele", "height": "ele",
}

// units of each column, in SI. Factors: NIST SP 811, appendix B.
var units = map[string]map[string]float64{
	"time":  {"s": 1, "sec": 1, "ms": 1e-3, "us": 1e-6},
	"lat":   {"deg": 1, "°": 1},
	"lon":   {"deg": 1, "°": 1},
	"speed": {"m/s": 1, "km/h": 1 / 3.6, "kph": 1 / 3.6, "kmh": 1 / 3.6, "mph": 1609.344 / 3600, "kn": 1852.0 / 3600, "knots": 1852.0 / 3600},
	"ele":   {"m": 1, "ft": 0.3048},
}

var heading = regexp.MustCompile(`^\s*([A-Za-z]+)[\s_]*[(\[]?\s*([^()\[\]]*?)\s*[)\]]?\s*$`)

func (c *csvReader) header(row []string) *Error {
	c.columns = map[string]column{}
	for i, cell := range row {
		m := heading.FindStringSubmatch(cell)
		if m == nil {
			continue
		}
		name, ok := names[strings.ToLower(m[1])]
		if !ok {
			continue
		}
		at := func(what, expected, hint string) *Error {
			line, col := c.r.FieldPos(i)
			return &Error{line, col, what, expected, hint}
		}
		if _, twice := c.columns[name]; twice {
			return at(fmt.Sprintf("a second column of %s", name), "one", "remove the other")
		}
		col := column{at: i}
		unit := strings.ToLower(m[2])
		if unit != "" {
			if col.scale, ok = units[name][unit]; !ok {
				return at(fmt.Sprintf("%s in %q", name, short(m[2])), map[string]string{
					"time": "s or ms", "lat": "deg", "lon": "deg", "speed": "m/s, km/h, mph or kn", "ele": "m or ft",
				}[name], "")
			}
		}
		switch {
		case name == "speed" && col.scale == 0:
			return at("speed without a unit", "speed (km/h), speed (mph), speed (m/s) or speed (kn)", "")
		case col.scale == 0 && name != "time":
			col.scale = 1
		}
		c.columns[name] = col
	}
	for _, name := range []string{"time", "lat", "lon"} {
		if _, ok := c.columns[name]; !ok {
			return &Error{What: fmt.Sprintf("no column of %s", name), Expected: "a header such as time (s), lat, lon, speed (km/h)", Hint: "the first row names the columns"}
		}
	}
	return nil
}

func (c *csvReader) row(row []string) *Error {
	c.cells = len(row)
	if c.columns == nil {
		return c.header(row)
	}
	if len(row) == 1 && strings.TrimSpace(row[0]) == "" {
		return nil
	}
	cell := func(name string) string {
		if col, ok := c.columns[name]; ok && col.at < len(row) {
			return strings.TrimSpace(row[col.at])
		}
		return ""
	}
	if cell("lat") == "" || cell("lon") == "" {
		c.gap = true
		return nil
	}
	f := Fix{Elevation: math.NaN(), Speed: math.NaN()}
	for _, v := range []struct {
		name string
		to   *float64
	}{{"lat", &f.Lat}, {"lon", &f.Lon}, {"speed", &f.Speed}, {"ele", &f.Elevation}} {
		if cell(v.name) == "" {
			continue
		}
		x, err := c.number(cell(v.name))
		if err != nil {
			return c.bad(v.name, fmt.Sprintf("%s %q is no number", v.name, short(cell(v.name))), "a number")
		}
		*v.to = x * c.columns[v.name].scale
	}
	if bad := degrees("lat", f.Lat, 90); bad != nil {
		return c.bad("lat", bad.What, bad.Expected)
	}
	if bad := degrees("lon", f.Lon, 180); bad != nil {
		return c.bad("lon", bad.What, bad.Expected)
	}
	if bad := c.time(cell("time"), &f); bad != nil {
		return bad
	}
	return c.add(f)
}

// number reads a finite number, with a decimal comma where cells are set apart
// by something else.
func (c *csvReader) number(s string) (float64, error) {
	if c.r.Comma != ',' {
		s = strings.Replace(s, ",", ".", 1)
	}
	v, err := strconv.ParseFloat(s, 64)
	if err == nil && (math.IsNaN(v) || math.IsInf(v, 0)) {
		err = strconv.ErrRange
	}
	return v, err
}

var clockTime = regexp.MustCompile(`^(\d{1,2}):(\d{2}):(\d{2}(?:[.,]\d+)?)$`)

func (c *csvReader) time(s string, f *Fix) *Error {
	const expected = "seconds, a clock time such as 09:30:00.5, or a date and time such as 2027-05-13T09:30:00Z"
	if s == "" {
		return c.bad("time", "a fix without a time", expected)
	}
	if v, err := c.number(s); err == nil {
		scale := c.columns["time"].scale
		switch {
		case scale == 0:
			return c.bad("time", fmt.Sprintf("time %q without a unit", short(s)), "time (s) or time (ms) in the header")
		case math.Abs(v*scale) > 1e11: // s: three thousand years
			return c.bad("time", fmt.Sprintf("time %q", short(s)), expected)
		}
		f.Time = v * scale
		return nil
	}
	if m := clockTime.FindStringSubmatch(s); m != nil {
		h, _ := strconv.ParseFloat(m[1], 64) // the pattern leaves digits only
		minutes, _ := strconv.ParseFloat(m[2], 64)
		sec, _ := strconv.ParseFloat(strings.Replace(m[3], ",", ".", 1), 64)
		if h < 24 && minutes < 60 && sec < 61 {
			c.clock = true
			f.Time = float64(3600*h) + float64(60*minutes) + sec
			return nil
		}
	}
	for _, s := range []string{s, strings.Replace(s, " ", "T", 1)} {
		if at, ok := dateTime(s); ok {
			f.Time = at
			return nil
		}
	}
	return c.bad("time", fmt.Sprintf("time %q", short(s)), expected)
}

func (c *csvReader) bad(name, what, expected string) *Error {
	line, column := c.r.FieldPos(min(c.columns[name].at, c.cells-1))
	return &Error{line, column, what, expected, ""}
}

func (c *csvReader) syntax(err error) *Error {
	var bad *csv.ParseError
	switch {
	case errors.Is(err, errLong):
		return c.tooLarge()
	case errors.As(err, &bad):
		return &Error{bad.Line, bad.Column, "not readable as CSV: " + bad.Err.Error(), "", ""}
	}
	return &Error{What: "not readable: " + short(err.Error())}
}
