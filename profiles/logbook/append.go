package logbook

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"slices"

	"example.com/tripwear/profiles/durable"
)

// ErrFaulty is returned where a logbook has faults and so takes no more rows.
var ErrFaulty = errors.New("the logbook has faults: put them right first")

// ErrChanged is returned where the logbook is no longer the one that the rows
// were checked against: read it and check again.
var ErrChanged = errors.New("the logbook changed meanwhile")

// Append adds rows to the logbook at path, which it starts where there is
// none. When it returns nil the rows are on the disk: they go there in one
// write, under a lock that ends with its process, so that neither another
// writer nor a kill can mix or lose rows. still says whether the rows of the
// file are those that the new ones were checked against; if not, ErrChanged. A
// last row that an earlier write left unfinished is taken away and returned.
func Append(path string, entries []Entry, still func([]Entry) bool) (torn string, err error) {
	f, err := openLocked(path)
	if err != nil {
		return "", err
	}
	defer func() { err = errors.Join(err, f.Close()) }() // closing gives the lock back
	if _, err := f.Seek(0, io.SeekStart); err != nil {
		return "", err
	}
	log, faults := ReadPart(f)
	if len(faults) > 0 {
		return "", ErrFaulty
	}
	if !still(log.Entries) {
		return "", ErrChanged
	}
	if log.Torn != "" || log.layout.columns == nil {
		if err := f.Truncate(log.good); err != nil {
			return "", err
		}
	}
	text, err := log.layout.rows(entries, log.ended)
	if err != nil {
		return log.Torn, err
	}
	before, err := f.Seek(0, io.SeekEnd)
	if err != nil {
		return log.Torn, err
	}
	if _, err = f.Write(text); err == nil {
		err = f.Sync()
	}
	if err != nil {
		return log.Torn, errors.Join(err, f.Truncate(before)) // half a row is no row
	}
	if before == 0 {
		durable.SyncFolder(filepath.Dir(path))
	}
	return log.Torn, nil
}

// rows writes entries as the file writes its rows, with the header where the
// file has none.
func (l layout) rows(entries []Entry, ended bool) ([]byte, error) {
	var b bytes.Buffer
	if !ended {
		b.WriteString("\n")
	}
	w := csv.NewWriter(&b)
	w.Comma, w.UseCRLF = l.comma, l.crlf
	columns := l.columns
	if columns == nil {
		columns = Columns
		if err := w.Write(columns); err != nil {
			return nil, err
		}
	}
	for _, e := range entries {
		fields := e.Row()
		record := make([]string, len(columns))
		for i, c := range columns {
			record[i] = fields[c]
		}
		for _, need := range []string{"confirmed", "note"} {
			if fields[need] != "" && !slices.Contains(columns, need) {
				return nil, fmt.Errorf("the logbook has no column %q for this row: add it to the first row", need)
			}
		}
		if err := w.Write(record); err != nil {
			return nil, err
		}
	}
	w.Flush()
	return b.Bytes(), w.Error()
}

// Row is the fields of a row as the file has them.
func (e Entry) Row() Row {
	r := Row{
		"date": e.Date.Format("2006-01-02"), "odometer": e.Mark, "what": string(e.What),
		"place": e.Where(), "zone": e.Zone, "value": e.Written, "note": e.Note,
	}
	if e.Confirmed {
		r["confirmed"] = "yes"
	}
	return r
}

// openLocked opens the file and waits for its lock. Where the file was
// replaced while waiting, as spreadsheets do, it starts over with the new one.
func openLocked(path string) (*os.File, error) {
	for {
		f, err := lockFile(path)
		if err != nil {
			return nil, err
		}
		mine, err := f.Stat()
		if err != nil {
			return nil, errors.Join(err, f.Close())
		}
		now, err := os.Stat(path)
		if err == nil && os.SameFile(mine, now) {
			return f, nil
		}
		if err := f.Close(); err != nil {
			return nil, err
		}
		if err != nil && !errors.Is(err, os.ErrNotExist) {
			return nil, err
		}
	}
}

// Drain hands the rows of a logbook to take and empties the file where it takes
// them, under the lock that Append has: another place keeps them now.
func Drain(path string, take func([]Entry) error) (err error) {
	f, err := openLocked(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	log, faults := ReadPart(f)
	if len(faults) > 0 {
		return ErrFaulty
	}
	if err := take(log.Entries); err != nil {
		if info, failed := f.Stat(); failed == nil && info.Size() == 0 {
			_ = os.Remove(path) // it was made to be locked
		}
		return err
	}
	if err := f.Truncate(0); err != nil {
		return err
	}
	_ = os.Remove(path) // an empty one does no harm
	return nil
}

// Text is the file of a new logbook with rows.
func Text(rows []Entry) ([]byte, error) { return layout{comma: ','}.rows(rows, true) }
