package trace

import (
	"bufio"
	"bytes"
	"errors"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
	"time"
)

// readNMEA reads the sentences RMC and GGA of NMEA 0183, of any talker, as a
// recording; all others are passed over. A sentence whose checksum is wrong is
// left out and counted. Source of the format: NMEA 0183 / IEC 61162-1, fields
// of RMC and GGA, checksum the exclusive or of what stands between $ and *;
// from memory.
func readNMEA(r io.Reader, most bounds) (*File, error) {
	b := bufio.NewReaderSize(most.limit(r, '\n'), 4<<10)
	n := nmea{builder: builder{bounds: most, clock: true}}
	var err error
	for !errors.Is(err, io.EOF) {
		var line []byte
		line, err = b.ReadSlice('\n')
		n.line++
		for errors.Is(err, bufio.ErrBufferFull) { // no sentence is that long
			line = nil
			_, err = b.ReadSlice('\n')
		}
		if bad := n.stopped(err); bad != nil {
			return nil, bad
		}
		if err != nil && !errors.Is(err, io.EOF) {
			return nil, &Error{What: "not readable: " + short(err.Error())}
		}
		if !bytes.Contains(line, []byte("RMC,")) && !bytes.Contains(line, []byte("GGA,")) {
			continue
		}
		if bad := n.sentence(string(line)); bad != nil {
			return nil, bad
		}
	}
	if bad := n.flush(); bad != nil {
		return nil, bad
	}
	if n.wrong > 0 && len(n.trace.Fixes) == 0 {
		return nil, &Error{n.firstWrong, 1, "no sentence with a fix has a right checksum", "after the * of a sentence the exclusive or of its characters", "the file was changed or damaged: copy it from the recorder again"}
	}
	if n.wrong > 0 {
		n.note(n.firstWrong, "%s with a wrong checksum: left out", count(n.wrong, "sentence"))
	}
	return n.done("NMEA 0183")
}

type nmea struct {
	builder
	line              int
	wrong, firstWrong int

	clockText string // of the epoch in hand, "" where none is
	epoch     Fix
	valid     bool    // it has a place
	void      bool    // a sentence said that it has none
	began     int     // its first line
	date      float64 // that a sentence of it has, s since 1970, 0 where none has
	base      float64 // the first date, where fixes without one came before it
	dated     bool    // a date was read
}

// sentence takes a line.
func (n *nmea) sentence(line string) *Error {
	at := strings.LastIndexByte(line, '$')
	if at < 0 {
		return nil
	}
	body, sum, summed := strings.Cut(strings.TrimSpace(line[at+1:]), "*")
	fields := strings.Split(body, ",")
	kind := fields[0][min(2, len(fields[0])):]
	if len(fields[0]) != 5 || kind != "RMC" && kind != "GGA" {
		return nil
	}
	if summed && !adds(body, sum) || len(fields) < 10 {
		if n.wrong++; n.wrong == 1 {
			n.firstWrong = n.line
		}
		return nil
	}
	if fields[1] == "" {
		n.gap = true
		return nil
	}
	if fields[1] != n.clockText {
		if bad := n.flush(); bad != nil {
			return bad
		}
		sec, ok := hhmmss(fields[1])
		if !ok {
			return &Error{n.line, at + 1, fmt.Sprintf("time %q", short(fields[1])), "hhmmss.ss", ""}
		}
		n.clockText, n.began = fields[1], n.line
		n.epoch = Fix{Time: sec, Elevation: math.NaN(), Speed: math.NaN()}
	}
	var bad *Error
	if kind == "RMC" {
		bad = n.rmc(fields)
	} else {
		bad = n.gga(fields)
	}
	if bad != nil {
		bad.Line, bad.Column = n.line, at+1
	}
	return bad
}

// adds says whether the exclusive or of a sentence's characters is its checksum.
func adds(body, sum string) bool {
	var own byte
	for i := range len(body) {
		own ^= body[i]
	}
	told, err := strconv.ParseUint(sum, 16, 8)
	return err == nil && byte(told) == own
}

// rmc takes time, status, latitude, N or S, longitude, E or W, speed in knots,
// course, date.
func (n *nmea) rmc(f []string) *Error {
	if f[2] != "A" {
		n.void = true
		return nil
	}
	if day, err := time.Parse("020106", f[9]); err == nil && satellites(day) {
		n.date = since1970(day)
	}
	if v, ok := number(f[7]); ok && v >= 0 {
		n.epoch.Speed = v * knot
	}
	return n.place(f[3:7])
}

// gga takes time, latitude, N or S, longitude, E or W, quality, satellites,
// dilution, height.
func (n *nmea) gga(f []string) *Error {
	if f[6] == "0" || f[6] == "" {
		n.void = true
		return nil
	}
	if v, ok := number(f[9]); ok {
		n.epoch.Elevation = v
	}
	return n.place(f[2:6])
}

// knot in m/s: NIST SP 811, appendix B.
const knot = 1852.0 / 3600

func (n *nmea) place(f []string) (bad *Error) {
	if n.epoch.Lat, bad = angle("lat", f[0]+" "+f[1], "NS", mostLat); bad != nil {
		return bad
	}
	if n.epoch.Lon, bad = angle("lon", f[2]+" "+f[3], "EW", mostLon); bad != nil {
		return bad
	}
	n.valid = true
	return nil
}

// flush adds the epoch in hand, all sentences of one time; one without a place
// is a lost fix. Midnight is where the date changes, and where there is no date
// (GGA has none) where the clock goes back.
func (n *nmea) flush() *Error {
	if n.clockText == "" {
		return nil
	}
	f, valid, date := n.epoch, n.valid && !n.void, n.date
	n.clockText, n.valid, n.void, n.date = "", false, false, 0
	if !valid {
		n.gap = true
		return nil
	}
	if date > 0 {
		if !n.dated && len(n.trace.Fixes) > 0 {
			n.base = date
		}
		n.dated = true
		n.day = max(n.day, date-n.base)
	}
	if bad := n.add(f); bad != nil {
		bad.Line, bad.Column = n.began, 1
		return bad
	}
	return nil
}

// hhmmss reads the time of day of a sentence.
func hhmmss(s string) (float64, bool) {
	if len(s) < 6 {
		return 0, false
	}
	h, ok := number(s[:2])
	m, also := number(s[2:4])
	sec, last := number(s[4:])
	if !ok || !also || !last || h < 0 || m < 0 || sec < 0 {
		return 0, false
	}
	return ofDay(h, m, sec)
}
