package trace

import (
	"context"
	"errors"
	"fmt"
	"io"
	"math"

	"github.com/muktihari/fit/decoder"
	"github.com/muktihari/fit/profile/basetype"
	"github.com/muktihari/fit/profile/typedef"
	"github.com/muktihari/fit/profile/untyped/fieldnum"
	"github.com/muktihari/fit/profile/untyped/mesgnum"
	"github.com/muktihari/fit/proto"
)

// readFIT reads the record messages of a FIT file: a recording, or where the
// file is a course a line of a map. A place is in semicircles, 2^31 of them to
// 180 deg, speed in mm/s, height in fifths of a metre from 500 m below the sea,
// time in seconds; the timer's stop is a gap. Source of the format: the
// published FIT protocol, by way of the library's profile.
func readFIT(r io.Reader, most bounds) (*File, error) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	f := fit{builder: builder{bounds: most}, stop: stop}
	limited := most.limit(r, 0)
	limited.piece = most.bytes // its messages are short by themselves
	d := decoder.New(limited, decoder.WithMesgListener(&f), decoder.WithBroadcastOnly())
	for f.bad == nil && d.Next() {
		if _, err := d.DecodeWithContext(ctx); err != nil && f.bad == nil {
			return nil, f.damaged(err)
		}
	}
	if f.bad != nil {
		f.bad.What = fmt.Sprintf("record %d: %s", f.records, f.bad.What)
		return nil, f.bad
	}
	return f.done("FIT")
}

type fit struct {
	builder
	stop    func()
	records int
	course  bool
	begun   bool // the course has its line
	bad     *Error
}

// OnMesg takes the next message.
func (f *fit) OnMesg(m proto.Message) {
	if f.bad != nil {
		return
	}
	switch uint16(m.Num) {
	case mesgnum.FileId:
		f.course, f.begun, f.gap = m.FieldValueByNum(fieldnum.FileIdType).Uint8() == uint8(typedef.FileCourse), false, true
	case mesgnum.Course:
		if f.course && !f.begun {
			f.bad, f.begun = f.line(m.FieldValueByNum(fieldnum.CourseName).String(), false), true
		}
	case mesgnum.Event:
		kind := typedef.EventType(m.FieldValueByNum(fieldnum.EventEventType).Uint8())
		if kind == typedef.EventTypeStop || kind == typedef.EventTypeStopAll {
			f.gap = true
		}
	case mesgnum.Record:
		f.records++
		f.bad = f.record(m)
	}
	if f.bad != nil {
		f.stop()
	}
}

// epoch is 1989-12-31T00:00:00Z, from which FIT counts, s since 1970; less than
// sinceOn seconds are those since the recorder was switched on.
const (
	epoch   = 631_065_600
	sinceOn = 0x10000000
)

func (f *fit) record(m proto.Message) *Error {
	lat, lon := m.FieldValueByNum(fieldnum.RecordPositionLat).Int32(), m.FieldValueByNum(fieldnum.RecordPositionLong).Int32()
	if lat == basetype.Sint32Invalid || lon == basetype.Sint32Invalid {
		f.gap = true
		return nil
	}
	const semicircle = 180.0 / (1 << 31)
	fix := Fix{Lat: float64(lat) * semicircle, Lon: float64(lon) * semicircle, Elevation: math.NaN(), Speed: math.NaN()}
	if bad := degrees("lat", fix.Lat, mostLat); bad != nil {
		return bad
	}
	if f.course {
		if !f.begun {
			f.begun = true
			if bad := f.line("", false); bad != nil {
				return bad
			}
		}
		return f.point(onEarth(fix.Lat, fix.Lon))
	}
	at := m.FieldValueByNum(fieldnum.RecordTimestamp).Uint32()
	if at == basetype.Uint32Invalid {
		return &Error{What: "a fix without a time", Expected: "a timestamp in every one"}
	}
	if fix.Time = float64(at); at >= sinceOn {
		fix.Time += epoch
	}
	if v := m.FieldValueByNum(fieldnum.RecordEnhancedSpeed).Uint32(); v != basetype.Uint32Invalid {
		fix.Speed = float64(v) / 1000
	}
	if v := m.FieldValueByNum(fieldnum.RecordEnhancedAltitude).Uint32(); v != basetype.Uint32Invalid {
		fix.Elevation = float64(v)/5 - 500
	}
	return f.add(fix)
}

// damaged says why the library read no further.
func (f *fit) damaged(err error) *Error {
	if bad := f.stopped(err); bad != nil {
		return bad
	}
	what := "not readable as FIT: " + short(err.Error())
	switch {
	case errors.Is(err, decoder.ErrCRCChecksumMismatch):
		what = "the checksum of the file is wrong"
	case errors.Is(err, io.EOF), errors.Is(err, io.ErrUnexpectedEOF):
		what = fmt.Sprintf("the file ends after %s", count(f.records, "record"))
	}
	return &Error{What: what, Expected: "a whole FIT file", Hint: "the file is damaged: copy it from the recorder again"}
}
