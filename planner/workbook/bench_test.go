package workbook

import (
	"io"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles/quantity"
)

// BenchmarkWrite writes the demo plan.
func BenchmarkWrite(b *testing.B) {
	p := juniper(b)
	for b.Loop() {
		if err := Write(io.Discard, p, quantity.US); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkBareLibrary writes the same cells, without looks, pages or charts,
// the plain way: what Write costs beyond it is the paper.
func BenchmarkBareLibrary(b *testing.B) {
	f := reopened(b, juniper(b), quantity.US)
	content := map[string][][]string{}
	for _, s := range sheetNames {
		content[s] = rows(b, f, s)
	}
	for b.Loop() {
		bare := excelize.NewFile()
		for _, s := range sheetNames {
			if _, err := bare.NewSheet(s); err != nil {
				b.Fatal(err)
			}
			for i, r := range content[s] {
				for j, v := range r {
					at, err := excelize.CoordinatesToCellName(j+1, i+1)
					if err != nil {
						b.Fatal(err)
					}
					if err := bare.SetCellValue(s, at, v); err != nil {
						b.Fatal(err)
					}
				}
			}
		}
		if err := bare.Write(io.Discard); err != nil {
			b.Fatal(err)
		}
		if err := bare.Close(); err != nil {
			b.Fatal(err)
		}
	}
}
