package workbook

import (
	"archive/zip"
	"bytes"
	"slices"
	"testing"

	"example.com/tripwear/profiles/quantity"
)

// TestOrderOfParts: the content types come first, as readers that stream expect,
// and the other parts by name.
func TestOrderOfParts(t *testing.T) {
	data := written(t, planned(t, "fjord", "midsummer"), quantity.Metric)
	book, err := zip.NewReader(bytes.NewReader(data), int64(len(data)))
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, f := range book.File {
		names = append(names, f.Name)
	}
	if names[0] != "[Content_Types].xml" || !slices.IsSorted(names[1:]) {
		t.Errorf("parts in the order %v", names)
	}
}
