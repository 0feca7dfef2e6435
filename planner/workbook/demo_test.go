package workbook

import (
	"bytes"
	"slices"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// planned makes the plan of a demo car's trip.
func planned(t testing.TB, car, trip string) *plan.Plan {
	t.Helper()
	return drawn(t, car, trip, 400)
}

// drawn is the same from so many draws.
func drawn(t testing.TB, car, trip string, draws int) *plan.Plan {
	t.Helper()
	fsys, err := profiles.Demo(car)
	if err != nil {
		t.Fatal(err)
	}
	folder, err := profiles.Load(fsys)
	if err != nil {
		t.Fatal(err)
	}
	p, err := planner.Make(folder, folder.Trips[trip], planner.Options{Draws: draws})
	if err != nil {
		t.Fatal(err)
	}
	planner.Around(p, folder, folder.Trips[trip])
	return p
}

func juniper(t testing.TB) *plan.Plan { t.Helper(); return planned(t, "juniper", "spring") }

// standing is the plan with nothing decided: the car as it stands.
func standing(p *plan.Plan) *plan.Plan {
	out := *p
	out.Sets = slices.Clone(p.Sets)
	for i := range out.Sets {
		out.Sets[i].Decision.Action = plan.Run
	}
	return &out
}

// written is the workbook's bytes.
func written(t testing.TB, p *plan.Plan, units quantity.System) []byte {
	t.Helper()
	var buf bytes.Buffer
	if err := Write(&buf, p, units); err != nil {
		t.Fatal(err)
	}
	return buf.Bytes()
}

// reopened is the workbook as a reader sees it.
func reopened(t testing.TB, p *plan.Plan, units quantity.System) *excelize.File {
	t.Helper()
	return opened(t, written(t, p, units))
}

// opened is the same from the workbook's bytes.
func opened(t testing.TB, book []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

// rows are a sheet's raw values.
func rows(t testing.TB, f *excelize.File, sheet string) [][]string {
	t.Helper()
	out, err := f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// below is the first row under a heading whose first cell begins as said.
func below(t testing.TB, rows [][]string, heading, begins string) []string {
	t.Helper()
	from := slices.IndexFunc(rows, func(r []string) bool { return len(r) > 0 && strings.HasPrefix(r[0], heading) })
	if from < 0 {
		t.Fatalf("no heading %q", heading)
	}
	for _, r := range rows[from:] {
		if len(r) > 0 && strings.HasPrefix(r[0], begins) {
			return r
		}
	}
	t.Fatalf("no row %q under %q", begins, heading)
	return nil
}
