//go:build engine

package workbook

import (
	"bytes"
	"context"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/kind"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"

	"example.com/tripwear/planner/workbook/form"
)

// always makes LibreOffice recalculate what it opens: without it, cached
// numbers stand as they are.
const always = `<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode" oor:op="fuse"><value>0</value></prop></item>
</oor:items>`

// resaved is a workbook as LibreOffice recalculates and saves it, in a profile
// of its own. Its exit code says nothing, so the file is looked at instead.
func resaved(t *testing.T, book []byte) []byte {
	t.Helper()
	dir := t.TempDir()
	in, out := filepath.Join(dir, "book.xlsx"), filepath.Join(dir, "out")
	for path, data := range map[string][]byte{
		in: book, filepath.Join(dir, "profile", "user", "registrymodifications.xcu"): []byte(always),
	} {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	ctx, cancel := context.WithTimeout(context.Background(), 3*time.Minute)
	defer cancel()
	run := exec.CommandContext(ctx, "soffice", "-env:UserInstallation=file://"+filepath.Join(dir, "profile"),
		"--headless", "--norestore", "--convert-to", "xlsx", "--outdir", out, in)
	said, err := run.CombinedOutput()
	if err != nil {
		t.Fatalf("soffice: %v: %s", err, said)
	}
	data, err := os.ReadFile(filepath.Join(out, "book.xlsx"))
	if err != nil {
		t.Fatalf("soffice wrote nothing: %s", said)
	}
	return data
}

// grid is a workbook's raw values by sheet.
type grid map[string][][]string

func gridOf(t *testing.T, book []byte) grid {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	out := grid{}
	for _, s := range f.GetSheetList() {
		out[s] = rows(t, f, s)
	}
	return out
}

func (g grid) at(t *testing.T, sheet, cell string) string {
	t.Helper()
	col, row, err := excelize.CellNameToCoordinates(cell)
	if err != nil {
		t.Fatal(err)
	}
	if rows := g[sheet]; row <= len(rows) && col <= len(rows[row-1]) {
		return rows[row-1][col-1]
	}
	return ""
}

// differ lists the formula cells whose values are not the same: numbers to
// 1e-9, or to what rounding leaves of a difference of like figures; texts as shown.
func differ(t *testing.T, book []byte, a, b grid) []string {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	sheets := f.GetSheetList()
	var out []string
	for where := range formulas(t, book) {
		part, cell, _ := strings.Cut(where, " ")
		n, err := strconv.Atoi(strings.TrimSuffix(strings.TrimPrefix(part, "xl/worksheets/sheet"), ".xml"))
		if err != nil {
			t.Fatal(err)
		}
		if strings.HasPrefix(cell, "format") {
			continue
		}
		sheet := sheets[n-1]
		x, y := a.at(t, sheet, cell), b.at(t, sheet, cell)
		if x == y {
			continue
		}
		v, errX := strconv.ParseFloat(x, 64)
		w, errY := strconv.ParseFloat(y, 64)
		const tiny = 1e-10 // of figures below 10,000 that cancel
		if errX != nil || errY != nil || !(math.Abs(v-w) <= 1e-9*math.Max(math.Abs(v), math.Abs(w))+tiny) {
			out = append(out, fmt.Sprintf("%s!%s: %q, second engine %q", sheet, cell, x, y))
		}
	}
	return out
}

func TestEngineAgrees(t *testing.T) {
	for _, c := range []struct{ car, trip string }{{"juniper", "spring"}, {"fjord", "midsummer"}} {
		for _, units := range []quantity.System{quantity.US, quantity.Metric} {
			t.Run(c.car+" "+units.String(), func(t *testing.T) {
				t.Parallel()
				book := written(t, planned(t, c.car, c.trip), units)
				for _, d := range differ(t, book, gridOf(t, book), gridOf(t, resaved(t, book))) {
					t.Error(d)
				}
			})
		}
	}
}

// TestEngineBites plants wrong caches: the second engine must put them right,
// and the comparison must find each.
func TestEngineBites(t *testing.T) {
	book := written(t, juniper(t), quantity.US)
	all := parts(t, book)
	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	planted := map[string]string{}
	for i, s := range f.GetSheetList() {
		name := fmt.Sprintf("xl/worksheets/sheet%d.xml", i+1)
		data := all[name]
		at := strings.Index(data, "</f><v>")
		if at < 0 {
			continue
		}
		end := at + strings.Index(data[at:], "</v>")
		cell := data[strings.LastIndex(data[:at], `r="`)+3:]
		all[name] = data[:at] + "</f><v>12345.678" + data[end:]
		planted[s] = cell[:strings.Index(cell, `"`)]
	}
	if len(planted) < 8 {
		t.Fatalf("planted in %v only", planted)
	}
	wrong := zipped(t, all)
	found := differ(t, wrong, gridOf(t, wrong), gridOf(t, resaved(t, wrong)))
	if len(found) != len(planted) {
		t.Errorf("%d planted, found %v", len(planted), found)
	}
	for s, cell := range planted {
		if !strings.Contains(strings.Join(found, "\n"), s+"!"+cell+": ") {
			t.Errorf("%s!%s was not found", s, cell)
		}
	}
}

// changedTrip is the demo with more road, a day more, a shallower tire and a
// dearer one; and the workbook of the unchanged one, edited alike.
func changedTrip(t *testing.T) (was, now *plan.Plan, edited []byte) {
	t.Helper()
	fsys, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	folder, err := profiles.Load(fsys)
	if err != nil {
		t.Fatal(err)
	}
	was, err = planner.Make(folder, folder.Trips["spring"], planner.Options{Draws: 2000})
	if err != nil {
		t.Fatal(err)
	}
	book := written(t, was, quantity.US)

	const mile, inch = 1609.344, 0.0254 // NIST SP 811
	trip := folder.Trips["spring"]
	trip.Legs[0].Distance = 1400 * mile
	trip.Legs[1].Days++
	for i := range folder.Car.Fitted {
		if tread := folder.Car.Fitted[i].Tread["LF"]; tread != nil {
			tread[0] = 6 * inch / 32
		}
	}
	part := folder.Parts["tires-rear"]
	part.Price = 512
	folder.Parts["tires-rear"] = part
	now, err = planner.Make(folder, trip, planner.Options{Draws: 20_000})
	if err != nil {
		t.Fatal(err)
	}

	f, err := excelize.OpenReader(bytes.NewReader(book))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	b := laidOut(was)
	lf := b.wear.find(find(t, was, "tires-front").Points[0])
	set := func(sheet, cell string, v any) {
		if err := f.SetCellValue(sheet, cell, v); err != nil {
			t.Fatal(err)
		}
	}
	set("Legs", fmt.Sprintf("D%d", legFirst), 1400)
	set("Legs", fmt.Sprintf("E%d", legFirst+1), 2)
	set(wearName, fmt.Sprintf("D%d", lf.row), 6)
	set(cardName, shows.Free().Name(), asStands)
	for i, r := range rows(t, f, shopName) {
		if len(r) > 3 && strings.Contains(r[0], "rear tires") {
			set(shopName, fmt.Sprintf("D%d", i+1), 512)
		}
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	return was, now, out.Bytes()
}

// TestEngineFollowsInputs changes inputs in the file, recalculates, and holds
// the result against the program planning the changed trip.
func TestEngineFollowsInputs(t *testing.T) {
	was, now, book := changedTrip(t)
	g := gridOf(t, resaved(t, book))
	b := layOut(standing(now), quantity.US)
	for _, w := range b.wear {
		cell := func(col int) string { return fieldOf(g, wearName, w.row, col) }
		last := len(now.Legs) - 1
		left := nominal(*w.p, last) * w.u.factor()
		if w.banded() {
			near(t, w.set.ID+" "+w.spot()+" left", cell(wearLegs-1+len(viewOf(was, quantity.US).driven)), math.Max(0, left), 1e-8*math.Max(1, math.Abs(left)))
			near(t, w.set.ID+" "+w.spot()+" chance", cell(wearChance), w.p.After[last].PLimit, chanceNear)
		}
	}
	meters := 0.0
	for _, l := range now.Legs {
		meters += l.Meters
	}
	const mile = 1609.344
	near(t, "distance", g.at(t, "Legs", fmt.Sprintf("D%d", legFirst+len(now.Legs)-1)), meters/mile, 1e-6)
	price := 0.0
	for _, it := range now.Shopping {
		if strings.Contains(it.Name, "rear tires") {
			price = it.Price
		}
	}
	list := g[shopName]
	if got := below(t, list, "Item", "225")[3]; got != "512" || price != 512 {
		t.Errorf("price %s, plan %v", got, price)
	}
	before := gridOf(t, written(t, was, quantity.US))[shopName]
	paid, err := strconv.ParseFloat(below(t, before, "Item", "Still to pay")[3], 64)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "still to pay", below(t, list, "Item", "Still to pay")[3], paid+512-430, 1e-9)
	for sheet, word := range map[string]string{"Summary": "INPUTS CHANGED", "Wear": "INPUTS CHANGED", shopName: "PRICES OR ROOM CHANGED"} {
		if got := g.at(t, sheet, "A3"); !strings.HasPrefix(got, word) {
			t.Errorf("%s says %q", sheet, got)
		}
	}
}

// TestEngineNearForOtherSessions changes sessions and minutes, where rates a
// lap are an approximation, and holds it to what the Legs sheet says.
func TestEngineNearForOtherSessions(t *testing.T) {
	for _, c := range []struct {
		sessions, minutes int
		near              map[kind.Measure]float64
	}{
		{8, 20, map[kind.Measure]float64{
			kind.Tread: 1e-9, kind.HubLife: 1e-9, kind.OilLife: 1e-9, kind.Thickness: 0.01, kind.PadLining: 0.01, kind.Crack: 0.01,
		}},
		{2, 20, map[kind.Measure]float64{
			kind.Tread: 1e-9, kind.HubLife: 1e-9, kind.OilLife: 1e-9, kind.Thickness: 0.01, kind.PadLining: 0.01, kind.Crack: 0.01,
		}},
		{4, 30, map[kind.Measure]float64{
			kind.Tread: 0.05, kind.HubLife: 0.05, kind.OilLife: 1e-9, kind.Thickness: 0.05, // pads and cracks are struck out
		}},
	} {
		t.Run(fmt.Sprintf("%d x %d", c.sessions, c.minutes), func(t *testing.T) {
			t.Parallel()
			now, g := otherSessions(t, c.sessions, c.minutes)
			b := layOut(now, quantity.Metric)
			for j, l := range now.Legs {
				if l.Kind == profiles.CircuitLeg {
					near(t, "laps", g.at(t, "Legs", fmt.Sprintf("H%d", legFirst+j)), float64(l.Laps), 1e-9)
				}
			}
			for _, w := range b.wear {
				limit, ok := c.near[w.p.Measure]
				if !ok {
					continue
				}
				takes, got := 0.0, 0.0
				for k, l := range w.p.Loss {
					takes += l * w.u.factor()
					if k < len(w.wear) {
						got += number64(t, fieldOf(g, workingsName, w.from+1+k, workWear))
					}
				}
				near(t, w.set.ID+" "+w.spot(), fmt.Sprint(got), takes, limit*takes)
			}
			for _, s := range []string{"Legs", "Readings", "Wear"} {
				if got := g.at(t, s, "A3"); strings.HasPrefix(got, minutesChanged) != (c.minutes != 20) || got == "" {
					t.Errorf("%s says %q", s, got)
				}
			}
		})
	}
}

// otherSessions is the demo with other sessions, planned and recalculated.
func otherSessions(t *testing.T, sessions, minutes int) (*plan.Plan, grid) {
	t.Helper()
	fsys, err := profiles.Demo("juniper")
	if err != nil {
		t.Fatal(err)
	}
	folder, err := profiles.Load(fsys)
	if err != nil {
		t.Fatal(err)
	}
	was := juniper(t)
	f, err := excelize.OpenReader(bytes.NewReader(written(t, was, quantity.Metric)))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	for j, l := range was.Legs {
		if l.Kind != profiles.CircuitLeg {
			continue
		}
		for column, v := range map[string]int{"F": sessions, "G": minutes} {
			if err := f.SetCellValue("Legs", fmt.Sprintf("%s%d", column, legFirst+j), v); err != nil {
				t.Fatal(err)
			}
		}
	}
	var book bytes.Buffer
	if err := f.Write(&book); err != nil {
		t.Fatal(err)
	}
	trip := folder.Trips["spring"]
	for i := range trip.Legs {
		if trip.Legs[i].Kind == profiles.CircuitLeg {
			trip.Legs[i].Sessions.Count, trip.Legs[i].Sessions.Each = sessions, quantity.Duration(minutes)*60
		}
	}
	now, err := planner.Make(folder, trip, planner.Options{Draws: 400})
	if err != nil {
		t.Fatal(err)
	}
	return now, gridOf(t, resaved(t, book.Bytes()))
}

// TestEngineKeepsReadings reads a form that LibreOffice saved.
func TestEngineKeepsReadings(t *testing.T) {
	book := resaved(t, fill(t, written(t, juniper(t), quantity.US), 0, filledIn))
	got, err := read(book)
	if err != nil {
		t.Fatal(err)
	}
	came(t, got)
	g := gridOf(t, book)
	for _, want := range []string{"nearly the end", "good", "top up"} {
		found := false
		for _, r := range g[form.Sheet] {
			found = found || len(r) >= form.Status && r[form.Status-1] == want
		}
		if !found {
			t.Errorf("no row of the form turned to %q", want)
		}
	}
}

func number64(t *testing.T, s string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(s, 64)
	if err != nil {
		t.Error(err)
	}
	return v
}

// TestEngineSwitches turns the switch on the Card: the second engine comes to
// what the program lays out for the car as it stands, and to nothing struck out.
func TestEngineSwitches(t *testing.T) {
	p := juniper(t)
	f := opened(t, written(t, p, quantity.US))
	if err := f.SetCellValue(cardName, shows.Free().Name(), asStands); err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	if err := f.Write(&out); err != nil {
		t.Fatal(err)
	}
	g := gridOf(t, resaved(t, out.Bytes()))
	b, worn := layOut(standing(p), quantity.US), 0
	for _, w := range b.wear {
		if !w.banded() {
			continue
		}
		for k, st := range w.steps {
			near(t, w.set.ID+" "+w.spot(), fieldOf(g, workingsName, w.from+k, workLeft), st.left.Num(), 1e-8*math.Max(1, math.Abs(st.left.Num())))
		}
		got := fieldOf(g, wearName, w.row, wearStatus)
		if want := b.sheet(wearName).rows[w.row-1].cells[wearStatus-1].value; got != want {
			t.Errorf("%s %s: status %q, want %q", w.set.ID, w.spot(), got, want)
		}
		if got == pastLimit {
			worn++
		}
	}
	if worn == 0 || g.at(t, wearName, "A3") != "" {
		t.Errorf("%d points past their limit; %q", worn, g.at(t, wearName, "A3"))
	}
}
