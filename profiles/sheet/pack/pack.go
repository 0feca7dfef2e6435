// Package pack writes a workbook of the library as a package whose bytes depend
// on its content alone.
package pack

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"errors"
	"hash/crc32"
	"io"
	"io/fs"
	"maps"
	"slices"
	"sort"
	"sync"

	"github.com/xuri/excelize/v2"
)

// errNoFolders says that a workbook holds single parts only.
var errNoFolders = errors.New("pack: a folder cannot be added to the package")

// Write writes the finished file. The library keeps parts and content types in
// maps, whose order changes from run to run.
func Write(w io.Writer, f *excelize.File) error {
	types := f.ContentTypes.Defaults
	sort.Slice(types, func(i, j int) bool { return types[i].Extension < types[j].Extension })
	f.SetZipWriter(func(w io.Writer) excelize.ZipWriter { return &sortedZip{w: w, parts: map[string]*bytes.Buffer{}} })
	return f.Write(w)
}

// sortedZip keeps the parts and writes them in order of name, which puts
// [Content_Types].xml first as readers expect. Parts carry no time.
type sortedZip struct {
	w     io.Writer
	parts map[string]*bytes.Buffer
}

func (z *sortedZip) Create(name string) (io.Writer, error) {
	z.parts[name] = new(bytes.Buffer)
	return z.parts[name], nil
}

// AddFS completes the library's interface; it is for packages read from disk.
func (z *sortedZip) AddFS(fs.FS) error { return errNoFolders }

func (z *sortedZip) Close() error {
	names := slices.Sorted(maps.Keys(z.parts))
	packed := make([]packed, len(names))
	var all sync.WaitGroup
	for i, name := range names {
		all.Go(func() { packed[i] = squeeze(name, mend(name, z.parts[name].Bytes())) })
	}
	all.Wait()
	out := zip.NewWriter(z.w)
	for _, p := range packed {
		if p.err != nil {
			return p.err
		}
		p.head.CompressedSize64 = uint64(p.body.Len())
		part, err := out.CreateRaw(&p.head)
		if err != nil {
			return err
		}
		if _, err := p.body.WriteTo(part); err != nil {
			return err
		}
	}
	return out.Close()
}

// packed is a part made ready for the package.
type packed struct {
	head zip.FileHeader
	body *bytes.Buffer
	err  error
}

// effort of compression: half the time of the usual level 6 for a tenth more
// bytes.
const effort = 3

// squeezers are used again: one is larger than most parts.
var squeezers = sync.Pool{New: func() any {
	w, err := flate.NewWriter(io.Discard, effort)
	if err != nil {
		panic(err) // the effort is not one of the library's
	}
	return w
}}

func squeeze(name string, part []byte) packed {
	var body bytes.Buffer
	w := squeezers.Get().(*flate.Writer)
	defer squeezers.Put(w)
	w.Reset(&body)
	_, err := w.Write(part)
	return packed{zip.FileHeader{
		Name: name, Method: zip.Deflate, CRC32: crc32.ChecksumIEEE(part), UncompressedSize64: uint64(len(part)),
	}, &body, errors.Join(err, w.Close())}
}
