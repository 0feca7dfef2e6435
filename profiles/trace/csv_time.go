package trace

import (
	"fmt"
	"math"
	"slices"
	"strings"
)

// time reads the time of the row in hand.
func (c *csvReader) time(f *Fix) *Error {
	const expected = "seconds, a clock time such as 09:30:00.5, or a date and time such as 2027-05-13T09:30:00Z"
	s := c.cell(timeColumn)
	if s == "" {
		return c.bad(timeColumn, "a fix without a time", expected)
	}
	if v, ok := number(decimal(s)); ok {
		scale := c.columns[timeColumn].scale
		switch {
		case scale == 0:
			return c.bad(timeColumn, fmt.Sprintf("time %q without a unit", short(s)), "time (s) or time (ms) in the header")
		case math.Abs(v*scale) > 1e11: // s: three thousand years
			return c.bad(timeColumn, fmt.Sprintf("time %q", short(s)), expected)
		}
		f.Time = v * scale
		return nil
	}
	if sec, ok := clockSeconds(s); ok {
		c.onDay(c.cell(dateColumn))
		f.Time = sec
		return nil
	}
	for _, s := range []string{s, strings.Replace(s, " ", "T", 1)} {
		if at, ok := dateTime(s); ok {
			f.Time = at
			return nil
		}
	}
	if date, sec, ok := dateAndClock(s); ok {
		c.onDay(date)
		f.Time = sec
		return nil
	}
	return c.bad(timeColumn, fmt.Sprintf("time %q", short(s)), expected)
}

// onDay takes the date of a clock time: another one is the next day, whichever
// way the country writes it.
func (c *csvReader) onDay(date string) {
	c.clock = true
	if c.date != "" && date != "" && date != c.date {
		c.day += 2 * halfDay
	}
	c.date = date
}

// sparse tells rows between the fixes, where a recorder writes more often than
// its receiver gives places, from lost fixes.
func (c *csvReader) sparse() {
	fixes := c.trace.Fixes
	if 2*c.blanks < len(fixes) || len(fixes) < 3 {
		return
	}
	steps := make([]float64, 0, len(fixes))
	for i := 1; i < len(fixes); i++ {
		steps = append(steps, fixes[i].Time-fixes[i-1].Time)
	}
	sorted := slices.Sorted(slices.Values(steps))
	usual := sorted[len(sorted)/2]
	for i, step := range steps {
		fixes[i+1].Gap = fixes[i+1].Gap && step > 1.5*usual
	}
}
