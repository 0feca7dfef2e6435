package workbook

import (
	"archive/zip"
	"bytes"
	"cmp"
	"errors"
	"io"
	"io/fs"
	"slices"
	"sort"
	"strings"

	"github.com/xuri/excelize/v2"
)

// errNoFolders says that a workbook holds single parts only.
var errNoFolders = errors.New("workbook: a folder cannot be added to the package")

// pack writes the finished file as a package whose bytes depend on its
// content alone: the library keeps parts and content types in maps, whose
// order changes from run to run.
func pack(w io.Writer, f *excelize.File) error {
	types := f.ContentTypes.Defaults
	sort.Slice(types, func(i, j int) bool { return types[i].Extension < types[j].Extension })
	f.SetZipWriter(func(w io.Writer) excelize.ZipWriter { return &sortedZip{w: w, parts: map[string]*bytes.Buffer{}} })
	return f.Write(w)
}

// sortedZip gathers the parts and writes them in order of name, the content
// types first as readers expect. Parts carry no time.
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
	names := make([]string, 0, len(z.parts))
	for name := range z.parts {
		names = append(names, name)
	}
	slices.SortFunc(names, func(a, b string) int {
		return cmp.Or(first(a)-first(b), strings.Compare(a, b))
	})
	out := zip.NewWriter(z.w)
	for _, name := range names {
		part, err := out.Create(name)
		if err != nil {
			return err
		}
		if _, err := part.Write(z.parts[name].Bytes()); err != nil {
			return err
		}
	}
	return out.Close()
}

func first(name string) int {
	if name == "[Content_Types].xml" {
		return 0
	}
	return 1
}
