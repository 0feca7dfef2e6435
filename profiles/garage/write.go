package garage

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/sheet"
	"example.com/tripwear/profiles/sheet/pack"
)

const (
	bodyRow  = 3   // the first row of a table below its headings and units
	roomRows = 500 // rows that drop-downs reach beyond those that are filled
	mostList = 255 // characters of the words of a drop-down that stand in its rule; ISO/IEC 29500-1, 18.3.1.32
)

// writer puts rows into a new workbook.
type writer struct {
	f     *excelize.File
	looks map[string]int
	lists int // columns of words on their sheet
}

// write writes a new garage that holds rows.
func (c content) write(w io.Writer) (err error) {
	x := &writer{f: excelize.NewFile(), looks: map[string]int{}}
	defer func() { err = errors.Join(err, x.f.Close()) }()
	if err := x.styles(); err != nil {
		return err
	}
	first := true
	for _, l := range layouts() {
		rows := c[l.name]
		if l.name == modelSheet && len(rows) == 0 {
			continue
		}
		if first {
			err = x.f.SetSheetName("Sheet1", l.name)
		} else {
			_, err = x.f.NewSheet(l.name)
		}
		if err != nil {
			return err
		}
		first = false
	}
	if _, err := x.f.NewSheet(wordsSheet); err != nil {
		return err
	}
	for _, l := range layouts() {
		rows := c[l.name]
		switch {
		case l.name == modelSheet && len(rows) == 0:
			continue
		case l.lines:
			err = x.lines(l, rows)
		default:
			err = x.table(l, rows)
		}
		if err != nil {
			return fmt.Errorf("sheet %s: %w", l.name, err)
		}
	}
	const undated = "2000-01-01T00:00:00Z" // the same rows give the same bytes
	err = errors.Join(
		x.f.SetDocProps(&excelize.DocProperties{Title: "Garage", Creator: "tripwear", LastModifiedBy: "tripwear", Created: undated, Modified: undated, Language: "en"}),
		x.f.SetAppProps(&excelize.AppProperties{Application: "tripwear"}),
	)
	if err != nil {
		return err
	}
	return pack.Write(w, x.f)
}

func (x *writer) styles() error {
	iso := "yyyy-mm-dd"
	head := excelize.Fill{Type: "pattern", Pattern: 1, Color: []string{"DDE3EA"}}
	looks := map[string]*excelize.Style{
		"head": {Font: &excelize.Font{Bold: true}, Fill: head, Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"}},
		"unit": {Font: &excelize.Font{Italic: true, Color: "666666"}},
		"text": {NumFmt: 49},
		"day":  {CustomNumFmt: &iso},
		"body": {},
	}
	for _, name := range slices.Sorted(maps.Keys(looks)) {
		id, err := x.f.NewStyle(looks[name])
		if err != nil {
			return err
		}
		x.looks[name] = id
	}
	return nil
}

// look is how the cells of a key look.
func look(k keys.Key) string {
	_, dated := k.Value.Interface().(time.Time)
	switch {
	case dated:
		return "day"
	case measured(k) == nil && !numeric(k) && !yesNo(k), onClock(k):
		return "text" // a spreadsheet leaves it alone
	}
	return "body"
}

// onClock says whether a duration is one that people write as 2:25.
func onClock(k keys.Key) bool {
	_, ok := k.Value.Interface().(quantity.Duration)
	return ok && strings.HasSuffix(k.Max, " min")
}

func yesNo(k keys.Key) bool { _, ok := k.Value.Interface().(bool); return ok }

// lines writes a sheet with one value a line.
func (x *writer) lines(l layout, rows []line) error {
	said := map[string]entry{}
	for _, r := range rows {
		said[r[0].path] = r[0]
	}
	heads := []struct{ text, doc string }{
		{whatKey, "what the value is; the note says more, a star that it must be there"}, {"value", "an empty cell or ? is unknown"},
		{unitKey, "of the value; a cell may have its own instead, such as 8 mm"}, {noteKey, "your own"},
	}
	for i, h := range heads {
		if err := x.head(l.name, i+1, h.text, h.doc); err != nil {
			return err
		}
	}
	n := 2
	for _, k := range l.keys {
		e, given := said[k.Path]
		if !given && l.shy != nil && l.shy(k.Path) {
			continue
		}
		number, unit, ok := apart(e.text)
		if !ok || measured(k) == nil {
			number, unit = e.text, ""
		}
		if !given {
			unit = usualUnit(k)
		}
		err := errors.Join(
			x.text(l.name, 1, n, heading(k.Path)+star(k), "body"), x.note(l.name, 1, n, about(k)),
			x.value(l.name, 2, n, k, number, unit), x.note(l.name, 2, n, e.note),
			x.text(l.name, 3, n, unit, "unit"), x.offer(l.name, 3, n, n, unitsOf(k), false), x.choose(l.name, 2, n, n, k),
		)
		if err != nil {
			return err
		}
		n++
	}
	return x.finish(l.name, []float64{26, 18, 12, 40}, 1)
}

// table writes a sheet with one thing a row.
func (x *writer) table(l layout, rows []line) error {
	widths := []float64{}
	column := 0
	for _, k := range l.keys {
		var said []string
		for _, r := range rows {
			if s := r.get(k.Path); s != "" {
				said = append(said, s)
			}
		}
		if len(said) == 0 && l.shy != nil && l.shy(k.Path) {
			continue
		}
		column++
		unit := commonUnit(k, said)
		width := len(heading(k.Path)) + 3
		name := heading(k.Path) + star(k)
		letter := sheet.Letters(column)
		err := errors.Join(x.f.SetColStyle(l.name, letter, x.looks[look(k)]), x.head(l.name, column, name, about(k)))
		if column == 1 {
			err = errors.Join(err, x.text(l.name, column, 2, unitKey, "unit"))
		} else {
			err = errors.Join(err, x.text(l.name, column, 2, unit, "unit"), x.offer(l.name, column, 2, 2, unitsOf(k), false))
		}
		for i, r := range rows {
			for _, e := range r {
				if e.path != k.Path {
					continue
				}
				number, own, ok := apart(e.text)
				if !ok || own != unit || measured(k) == nil {
					number, own = e.text, ""
				}
				width = max(width, len([]rune(e.text))+2)
				err = errors.Join(err, x.value(l.name, column, bodyRow+i, k, number, own), x.note(l.name, column, bodyRow+i, e.note))
			}
		}
		err = errors.Join(err, x.choose(l.name, column, bodyRow, bodyRow+len(rows)+roomRows, k))
		if err != nil {
			return err
		}
		widths = append(widths, float64(min(width, 34)))
	}
	return x.finish(l.name, widths, 2)
}

// commonUnit is the unit that most of a column's values have.
func commonUnit(k keys.Key, said []string) string {
	if measured(k) == nil {
		return ""
	}
	count := map[string]int{}
	for _, s := range said {
		if _, unit, ok := apart(s); ok {
			count[unit]++
		}
	}
	best := ""
	for _, unit := range slices.Sorted(maps.Keys(count)) {
		if best == "" || count[unit] > count[best] {
			best = unit
		}
	}
	if best == "" && len(said) == 0 {
		return usualUnit(k)
	}
	return best
}

func star(k keys.Key) string {
	if k.Need {
		return "*"
	}
	return ""
}

// about is what there is to say of a key: what it is, its range, its words.
func about(k keys.Key) string {
	var out []string
	add := func(s string) {
		if s != "" {
			out = append(out, s)
		}
	}
	add(k.Doc)
	if k.Need {
		add("Must be filled.")
	}
	if k.Min != "" {
		add(k.Min + " to " + k.Max + ".")
	}
	if len(k.Words) > 0 && len(strings.Join(k.Words, ", ")) < 300 {
		add("One of " + strings.Join(k.Words, ", ") + ".")
	}
	if k.List {
		add("Several with commas between them.")
	}
	if k.Unknown == "written" {
		add("? where nobody knows.")
	}
	return strings.Join(out, "\n")
}

func address(column, row int) string { return fmt.Sprintf("%s%d", sheet.Letters(column), row) }

func (x *writer) text(name string, column, row int, text, look string) error {
	at := address(column, row)
	err := x.f.SetCellStyle(name, at, at, x.looks[look])
	if text != "" {
		err = errors.Join(err, x.f.SetCellStr(name, at, text))
	}
	return err
}

func (x *writer) head(name string, column int, text, doc string) error {
	return errors.Join(x.text(name, column, 1, text, "head"), x.note(name, column, 1, doc))
}

// value fills a cell: a number where one comes back as it was written.
func (x *writer) value(name string, column, row int, k keys.Key, text, unit string) error {
	at := address(column, row)
	if err := x.f.SetCellStyle(name, at, at, x.looks[look(k)]); err != nil || text == "" {
		return err
	}
	day, err := time.Parse(time.DateOnly, text)
	switch {
	case look(k) == "day" && err == nil:
		return x.f.SetCellInt(name, at, int64(sheet.Serial(day)))
	case yesNo(k):
		return x.f.SetCellBool(name, at, text == "true")
	case canonical(text) && (unit != "" || numeric(k)) && look(k) != "text":
		number, _ := strconv.ParseFloat(text, 64) // a canonical one parses
		return x.f.SetCellFloat(name, at, number, -1, 64)
	case unit != "" && look(k) != "day":
		text = compose(text, unit)
	}
	return errors.Join(x.f.SetCellStyle(name, at, at, x.looks["text"]), x.f.SetCellStr(name, at, text))
}

func (x *writer) note(name string, column, row int, text string) error {
	if text == "" {
		return nil
	}
	lines := uint(strings.Count(text, "\n") + len([]rune(text))/34 + 2)
	return x.f.AddComment(name, excelize.Comment{Cell: address(column, row), Author: "tripwear", Paragraph: []excelize.RichTextRun{{Text: text}}, Width: 240, Height: 18 * lines})
}

// choose offers the words of a key.
func (x *writer) choose(name string, column, from, to int, k keys.Key) error {
	switch {
	case k.List || k.As == "finding":
		return x.offer(name, column, from, to, k.Words, false)
	case yesNo(k):
		return x.offer(name, column, from, to, []string{"TRUE", "FALSE"}, true)
	}
	return x.offer(name, column, from, to, k.Words, len(k.Words) > 0)
}

// offer is a drop-down of words; only those are taken where strict.
func (x *writer) offer(name string, column, from, to int, words []string, strict bool) error {
	if len(words) == 0 {
		return nil
	}
	v := excelize.NewDataValidation(true)
	v.SetSqref(address(column, from) + ":" + address(column, to))
	if len(strings.Join(words, ",")) > mostList || slices.ContainsFunc(words, func(s string) bool { return strings.Contains(s, ",") }) {
		x.lists++
		letter := sheet.Letters(x.lists)
		for i, w := range words {
			if err := x.f.SetCellStr(wordsSheet, address(x.lists, i+1), w); err != nil {
				return err
			}
		}
		v.SetSqrefDropList(fmt.Sprintf("%s!$%s$1:$%s$%d", wordsSheet, letter, letter, len(words)))
	} else if err := v.SetDropList(words); err != nil {
		return err
	}
	v.ShowErrorMessage = strict
	if strict {
		v.SetError(excelize.DataValidationErrorStyleWarning, "Not a word of it", "Expected one of the words in the list.")
	}
	return x.f.AddDataValidation(name, v)
}

// finish sets widths, frozen headings and the page.
func (x *writer) finish(name string, widths []float64, heads int) error {
	for i, w := range widths {
		if err := x.f.SetColWidth(name, sheet.Letters(i+1), sheet.Letters(i+1), w); err != nil {
			return err
		}
	}
	landscape, wide, long, fit := "landscape", 1, 0, true
	return errors.Join(
		x.f.SetPanes(name, &excelize.Panes{Freeze: true, XSplit: 1, YSplit: heads, TopLeftCell: address(2, heads+1), ActivePane: "bottomRight"}),
		x.f.SetPageLayout(name, &excelize.PageLayoutOptions{Orientation: &landscape, FitToWidth: &wide, FitToHeight: &long}),
		x.f.SetSheetProps(name, &excelize.SheetPropsOptions{FitToPage: &fit}),
	)
}
