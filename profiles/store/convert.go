package store

import (
	"bytes"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"testing/fstest"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/garage"
)

// Convert writes the store as the other one: a folder as a workbook, a workbook
// as a folder, with the recorded tracks and maps that its circuits name. Nothing
// that is there is replaced. Left is what goes no further.
func (s *Store) Convert(to string) (left []string, err error) {
	f, err := profiles.Load(s.Files())
	if err != nil {
		return nil, err
	}
	tracks := fstest.MapFS{}
	for _, name := range garage.Tracks(f) {
		data, err := fs.ReadFile(s.Files(), name)
		if err != nil {
			return nil, refusal(name+": "+durable.Reason(err), "see who may read it")
		}
		tracks[name] = &fstest.MapFile{Data: data}
	}
	if s.book != nil {
		if garage.Is(to) {
			return nil, refusal("convert takes a workbook and a folder, and both are workbooks", "tripwear convert garage.xlsx my-car")
		}
		files, err := s.book.Folder()
		if err != nil {
			return nil, err
		}
		maps.Copy(files, tracks)
		return s.book.Unread(), durable.NewFolder(to, files, "car.yaml")
	}
	if !garage.Is(to) {
		return nil, refusal("convert takes a folder and a workbook, and neither ends in .xlsx", "tripwear convert my-car garage.xlsx")
	}
	return Start(to, s.FS, tracks)
}

// Start writes a new workbook that holds a car folder, with files beside it.
func Start(to string, folder fs.FS, beside fstest.MapFS) (left []string, err error) {
	var book bytes.Buffer
	if left, err = garage.Write(&book, folder); err != nil {
		return nil, err
	}
	var fresh []string
	undo := func(err error) ([]string, error) {
		for _, name := range fresh {
			_ = os.Remove(name) // already failing
		}
		return nil, err
	}
	for _, name := range slices.Sorted(maps.Keys(beside)) {
		path := filepath.Join(filepath.Dir(to), filepath.FromSlash(name))
		if there, err := os.ReadFile(path); err == nil && bytes.Equal(there, beside[name].Data) {
			continue
		}
		if err := durable.Create(path, beside[name].Data); err != nil {
			return undo(err)
		}
		fresh = append(fresh, path)
	}
	if err := durable.Create(to, book.Bytes()); err != nil {
		return undo(err)
	}
	return left, nil
}
