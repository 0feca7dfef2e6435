// Package yearbook writes a season as an .xlsx workbook: the calendar, what is done
// when, orders as a list, money by month, and the life of each set over the year.
package yearbook

import (
	"errors"
	"io"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/sheet/pack"
)

// book is a season being written; the first error stays.
type book struct {
	*excelize.File
	*plan.Season
	units             quantity.System
	head, day, amount int // styles
	share             int
	err               error
}

// Write writes a season. The same season gives the same bytes: the document's times
// are the first departure.
func Write(w io.Writer, s *plan.Season, units quantity.System) (err error) {
	b := &book{File: excelize.NewFile(), Season: s, units: units}
	defer func() { err = errors.Join(err, b.Close()) }()
	stamp := s.Calendar[0].Depart.UTC().Format(time.RFC3339)
	b.did(b.SetDocProps(&excelize.DocProperties{Title: s.Car + ": a season", Creator: "tripwear", Created: stamp, Modified: stamp, LastModifiedBy: "tripwear", Language: "en"}))
	b.did(b.SetAppProps(&excelize.AppProperties{Application: "tripwear"}))
	style := func(st excelize.Style) int {
		id, err := b.NewStyle(&st)
		b.did(err)
		return id
	}
	date := "yyyy-mm-dd"
	b.head = style(excelize.Style{Font: &excelize.Font{Bold: true}, Border: []excelize.Border{{Type: "bottom", Style: 1, Color: "444444"}}, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}})
	b.day, b.amount, b.share = style(excelize.Style{CustomNumFmt: &date}), style(excelize.Style{NumFmt: 3}), style(excelize.Style{NumFmt: 9})
	b.calendar()
	b.work()
	b.orders()
	b.money()
	b.lives()
	b.did(b.DeleteSheet("Sheet1"))
	if b.err != nil {
		return b.err
	}
	return pack.Write(w, b.File)
}

func (b *book) did(err error) {
	if b.err == nil {
		b.err = err
	}
}

// sheet is a table with its headings and widths, set to print on one page across.
func (b *book) sheet(name string, heads []string, widths []float64, rows [][]any) {
	_, err := b.NewSheet(name)
	b.did(err)
	table := append([][]any{nil}, rows...)
	for _, h := range heads {
		table[0] = append(table[0], h)
	}
	for r, row := range table {
		for c, value := range row {
			at, err := excelize.CoordinatesToCellName(c+1, r+1)
			b.did(err)
			look := 0
			switch v := value.(type) {
			case time.Time:
				look = b.day
				if v.IsZero() {
					value = ""
				}
			case share:
				value, look = float64(v), b.share
			case float64:
				look = b.amount
				if !quantity.Known(v) {
					value = quantity.UnknownWord
				}
			}
			if r == 0 {
				look = b.head
			}
			b.did(b.SetCellValue(name, at, value))
			b.did(b.SetCellStyle(name, at, at, look))
		}
	}
	for c, width := range widths {
		col, err := excelize.ColumnNumberToName(c + 1)
		b.did(err)
		b.did(b.SetColWidth(name, col, col, width))
	}
	fit, across, high, wide := true, 1, 0, "landscape"
	b.did(b.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}))
	b.did(b.SetPageLayout(name, &excelize.PageLayoutOptions{FitToWidth: &across, FitToHeight: &high, Orientation: &wide}))
	b.did(b.SetPanes(name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}

// share is a cell in percent.
type share float64

func (b *book) calendar() {
	var rows [][]any
	road := quantity.Distance[b.units]
	for _, t := range b.Calendar {
		what, verdict := t.Trip, t.Headline
		if t.AtHome {
			what, verdict = "at home before "+t.Trip, ""
		}
		rows = append(rows, []any{t.Depart, t.Back, what, road.Of(t.Road), t.Days, verdict, t.Purse, t.Life})
	}
	b.sheet("Calendar", []string{"leaves", "back", "trip", road.Name, "circuit days", "verdict", "purse " + b.Currency, "life worn " + b.Currency},
		[]float64{12, 12, 34, 9, 9, 60, 11, 11}, rows)
}

func (b *book) work() {
	var rows [][]any
	for _, w := range b.Work {
		reads := ""
		if w.Decides != nil {
			reads = w.Place + ": " + w.Measure.Show(b.units, max(0, w.Decides.Level))
		}
		rows = append(rows, []any{w.Day, b.Calendar[w.Trip].Trip, w.Name, string(w.Action), w.Where, share(w.AsIs), reads, w.Reason})
	}
	for _, c := range b.Own {
		rows = append(rows, []any{"", "all of it", "", "or", "", "", "", c.What})
	}
	b.sheet("To do", []string{"day", "for", "set", "what", "where", "chance to reach the limit if nothing is done", "reading at home that decides it, as expected", "why"},
		[]float64{12, 24, 18, 24, 22, 14, 22, 70}, rows)
}

func (b *book) orders() {
	var rows [][]any
	for _, o := range b.Orders {
		late := ""
		if o.Late {
			late = "too late"
		}
		rows = append(rows, []any{o.Day, o.OrderBy, o.Name, o.Quantity(b.units), o.Price, o.Trip, o.Buy, late, ""})
	}
	b.sheet("Orders", []string{"order on", "at the latest", "part", "how much", "price " + b.Currency, "for", "when it is needed", "", "ordered"},
		[]float64{12, 12, 44, 34, 10, 24, 17, 9, 10}, rows)
}

func (b *book) money() {
	var rows [][]any
	for _, m := range b.Months {
		rows = append(rows, []any{m.First.Format("Jan 2006"), m.Amount})
	}
	const name = "Money"
	b.sheet(name, []string{"month", strings.TrimSpace("out of the purse " + b.Currency)}, []float64{14, 18}, rows)
	to := cell(1, len(rows)+1)
	b.did(b.AddChart(name, "D2", &excelize.Chart{
		Type: excelize.Col, Title: title("Out of the purse by month"), Legend: excelize.ChartLegend{Position: "none"}, PlotArea: excelize.ChartPlotArea{ShowVal: true},
		Series: []excelize.ChartSeries{{Name: name + "!$B$1", Categories: name + "!$A$2:" + to, Values: name + "!$B$2:" + cell(2, len(rows)+1)}},
	}))
}

func cell(col, row int) string {
	at, _ := excelize.CoordinatesToCellName(col, row, true) // of numbers above 0
	return at
}

func title(text string) excelize.ChartTitle {
	return excelize.ChartTitle{Paragraph: []excelize.RichTextRun{{Text: text}}}
}
