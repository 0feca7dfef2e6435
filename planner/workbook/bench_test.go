package workbook

import (
	"io"
	"strconv"
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

// BenchmarkBareLibrary writes the same cells, values and formulas, without
// looks, pages, rules or charts, the plain way: what Write costs beyond it is
// the paper.
func BenchmarkBareLibrary(b *testing.B) {
	type content struct {
		at      string
		value   any
		formula string
	}
	f := reopened(b, juniper(b), quantity.US)
	sheets := f.GetSheetList()
	all := map[string][]content{}
	for _, s := range sheets {
		for i, r := range rows(b, f, s) {
			for j, v := range r {
				at, err := excelize.CoordinatesToCellName(j+1, i+1)
				if err != nil {
					b.Fatal(err)
				}
				formula, err := f.GetCellFormula(s, at)
				if err != nil {
					b.Fatal(err)
				}
				c := content{at: at, value: v, formula: formula}
				if n, err := strconv.ParseFloat(v, 64); err == nil {
					c.value = n
				}
				if v != "" || formula != "" {
					all[s] = append(all[s], c)
				}
			}
		}
	}
	for b.Loop() {
		bare := excelize.NewFile()
		for _, s := range sheets {
			if _, err := bare.NewSheet(s); err != nil {
				b.Fatal(err)
			}
			for _, c := range all[s] {
				if err := bare.SetCellValue(s, c.at, c.value); err != nil {
					b.Fatal(err)
				}
				if c.formula == "" {
					continue
				}
				if err := bare.SetCellFormula(s, c.at, c.formula); err != nil {
					b.Fatal(err)
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
