package trace

import (
	"fmt"
	"strings"
	"unicode"
)

// missing says which column a header lacks.
func (h *header) missing() *Error {
	const like = "a header such as time (s), lat, lon, speed (km/h)"
	for _, k := range []kind{xColumn, yColumn} {
		if h.has(xColumn+yColumn-k) && !h.has(k) && !h.has(latColumn) && !h.has(lonColumn) {
			return &Error{h.line, 1, fmt.Sprintf("no column of %s", k), "a header such as x (m), y (m)", "the first row names the columns"}
		}
	}
	for _, k := range []kind{latColumn, lonColumn, timeColumn} {
		if !h.has(k) {
			return &Error{h.line, 1, fmt.Sprintf("no column of %s", k), like, "the first row names the columns"}
		}
	}
	return nil
}

// units takes the row after the header where it holds units, and says whether
// it does.
func (h *header) units(row []string) bool {
	known, told := false, false
	each := func(k kind, c *column) bool {
		if c.at < 0 || c.at >= len(row) {
			return true
		}
		unit := unitOf(latin1(row[c.at]))
		scale, ok := columnWords[k].units[unit]
		known = known || ok
		told = told || unit != ""
		if ok && c.scale == 0 && c.wrong == nil {
			c.scale = scale
		}
		return ok || noMeasure.MatchString(unit) || !strings.ContainsFunc(unit, unicode.IsDigit)
	}
	for k := range kinds {
		if !each(k, &h.columns[k]) {
			return false
		}
	}
	for i := range h.speeds {
		if !each(speedColumn, &h.speeds[i]) {
			return false
		}
	}
	return known || told && h.placed(row)
}

// placed says whether a row has text where the place stands.
func (h *header) placed(row []string) bool {
	k := latColumn
	if h.places() == plane {
		k = xColumn
	}
	at := h.columns[k].at
	return at < len(row) && strings.TrimSpace(row[at]) != ""
}

// settle chooses the columns that are read, once all units are known.
func (h *header) settle() *Error {
	needed := []kind{latColumn, lonColumn, timeColumn}
	if h.places() == plane {
		needed = []kind{xColumn, yColumn}
		if h.has(timeColumn) {
			c := h.columns[timeColumn]
			return &Error{h.line, c.column, "times beside x and y", "lat and lon with times, or x and y of a map without", ""}
		}
	}
	for _, k := range needed {
		if c := h.columns[k]; c.at >= 0 && c.wrong != nil {
			return c.wrong
		}
	}
	if h.twice != nil {
		return h.twice
	}
	if h.places() == earth && !h.has(timeColumn) && (len(h.speeds) > 0 || h.has(dateColumn)) {
		return h.missing()
	}
	if !h.has(timeColumn) && len(h.unread) > 0 {
		const most = 5
		h.leave("no column of time is known, so that this is a map; %s", strings.Join(h.unread[:min(most, len(h.unread))], ", "))
	}
	h.chooseSpeed()
	for k := range kinds {
		c := &h.columns[k]
		if c.wrong != nil {
			if k != xColumn && k != yColumn { // of something else, beside lat and lon
				h.leave("%q, for its unit", short(c.title))
			}
			c.at = -1
		}
		if c.scale == 0 && k != timeColumn {
			c.scale = 1
		}
	}
	return nil
}

// chooseSpeed keeps the first speed with a unit.
func (h *header) chooseSpeed() {
	var bare []string
	for _, c := range h.speeds {
		switch {
		case c.wrong != nil:
			h.leave("%q, for its unit", short(c.title))
		case c.scale == 0:
			bare = append(bare, fmt.Sprintf("%q", short(c.title)))
		case h.has(speedColumn):
			h.leave("a second column of speed, %q", short(c.title))
		default:
			h.columns[speedColumn] = c
		}
	}
	if len(bare) > 0 {
		h.leave("%s without a unit, %s", count(len(bare), "column")+" of speed", strings.Join(bare, ", "))
	}
}
