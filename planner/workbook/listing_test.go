package workbook

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// box is a cell's raw value and its formula.
type box struct{ value, formula string }

// cells are a sheet's, row by row.
func cells(t *testing.T, f *excelize.File, sheet string) [][]box {
	t.Helper()
	var out [][]box
	for i, row := range rows(t, f, sheet) {
		line := make([]box, len(row))
		for j, value := range row {
			at, err := excelize.CoordinatesToCellName(j+1, i+1)
			if err != nil {
				t.Fatal(err)
			}
			formula, err := f.GetCellFormula(sheet, at)
			if err != nil {
				t.Fatal(err)
			}
			line[j] = box{value, formula}
		}
		out = append(out, line)
	}
	return out
}

func (c box) String() string {
	if c.formula != "" {
		return short(c.value) + " =" + c.formula
	}
	return short(c.value)
}

var rowNumber = regexp.MustCompile(`(\$?\b[A-Z]{1,2}\$?)[0-9]+\b`)

// shape is what a cell has in common with those of other rows: its formula but
// for the numbers of rows, or that it holds a number or a text.
func (c box) shape() string {
	if c.formula != "" {
		return "=" + rowNumber.ReplaceAllString(c.formula, "$1#")
	}
	if c.value == "" {
		return ""
	}
	if _, err := strconv.ParseFloat(c.value, 64); err == nil {
		return "number"
	}
	return "text"
}

// listed is a line a row.
func listed(sheet string, rows [][]box, say func(box) string) []string {
	var out []string
	for i, row := range rows {
		if len(row) > 0 {
			out = append(out, fmt.Sprintf("%s %d", sheet, i+1)+inOne(row, say))
		}
	}
	return out
}

func inOne(row []box, say func(box) string) string {
	line := ""
	for _, c := range row {
		line += "|" + say(c)
	}
	return line
}

// folded is a line for the first row of a shape, and one for all others of it:
// the sums of their numbers and the beginnings of their texts.
func folded(sheet string, rows [][]box) []string {
	var out []string
	first, alike := map[string]int{}, map[int][]int{}
	for i, row := range rows {
		if shape := inOne(row, box.shape); strings.Trim(shape, "|") != "text" { // headings and notes are listed all
			if at, ok := first[shape]; ok {
				alike[at] = append(alike[at], i)
				continue
			}
			first[shape] = i
		}
		if len(row) > 0 {
			out = append(out, fmt.Sprintf("%s %d", sheet, i+1)+inOne(row, box.String))
		}
	}
	for _, at := range slices.Sorted(maps.Keys(alike)) {
		line := fmt.Sprintf("%s %d and like it %s", sheet, at+1, spans(alike[at]))
		for j := range rows[at] {
			sum := 0.0
			var texts []string
			for _, i := range alike[at] {
				value := rows[i][j].value
				if x, err := strconv.ParseFloat(value, 64); err == nil {
					sum += x
				} else if begin := value[:min(len(value), 16)]; !slices.Contains(texts, begin) {
					texts = append(texts, begin)
				}
			}
			line += "|" + strings.Join(texts, "/")
			if sum != 0 {
				line += fmt.Sprintf("%.6g", sum)
			}
		}
		out = append(out, line)
	}
	return out
}

// spans are row numbers, counted from 0, as a reader counts them.
func spans(rows []int) string {
	var out []string
	for k := 0; k < len(rows); {
		from := k
		for k++; k < len(rows) && rows[k] == rows[k-1]+1; k++ {
		}
		out = append(out, fmt.Sprint(rows[from]+1))
		if k-from > 1 {
			out[len(out)-1] += fmt.Sprintf("-%d", rows[k-1]+1)
		}
	}
	return strings.Join(out, ",")
}

// rulesAndMarks are a sheet's rules for what is written in, and its marks: the
// cells of marks that say the same, but for the rows, on one line.
func rulesAndMarks(t *testing.T, f *excelize.File, sheet string) []string {
	t.Helper()
	var out []string
	rules, err := f.GetDataValidations(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for _, r := range rules {
		out = append(out, fmt.Sprintf("%s rule %s %s %s %s %s", sheet, r.Sqref, r.Type, r.Operator, r.Formula1, r.Formula2))
	}
	marks, err := f.GetConditionalFormats(sheet)
	if err != nil {
		t.Fatal(err)
	}
	same := map[string][]string{}
	for _, at := range slices.Sorted(maps.Keys(marks)) {
		for _, m := range marks[at] {
			mark := fmt.Sprintf("%s %s %s", m.Type, m.Criteria, rowNumber.ReplaceAllString(m.Value, "$1#"))
			if m.StopIfTrue {
				mark += "before all others"
			}
			same[mark] = append(same[mark], at)
		}
	}
	for _, mark := range slices.Sorted(maps.Keys(same)) {
		out = append(out, fmt.Sprintf("%s mark %s %s", sheet, mark, strings.Join(same[mark], " ")))
	}
	return out
}

var (
	columnTag = regexp.MustCompile(`<col min="(\d+)"[^>]*? width="([\d.]+)"(?:[^>]* (hidden)=)?`)
	rowTag    = regexp.MustCompile(`<row r="\d+"(?: ht="([\d.]+)")?`)
	breakTag  = regexp.MustCompile(`<brk id="(\d+)"`)
	paneTag   = regexp.MustCompile(`<pane [^>]*topLeftCell="([A-Z]+\d+)"`)
	joinTag   = regexp.MustCompile(`<mergeCell ref="([A-Z]+\d+:[A-Z]+\d+)"`)
	targetTag = regexp.MustCompile(`Target="\.\./([^"]+)"`)
	anchorTag = regexp.MustCompile(strings.Repeat(`.*?<xdr:col>(\d+)<.*?<xdr:colOff>(\d+)<.*?<xdr:row>(\d+)<.*?<xdr:rowOff>(\d+)<`, 2))
	lookTag   = regexp.MustCompile(`<c r="[A-Z]+\d+" s="(\d+)"`)
	axisTag   = regexp.MustCompile(`<(max|min|majorUnit) val="([-\d.e+]+)"`)
)

// layout is how each sheet lies on the page: the widths of its columns, the
// heights of its rows, what is joined, where pages begin and what stays in
// sight; where its charts begin and end (columns and rows from 0, the offsets in
// 1/360,000 cm) and what their axes span; then how many cells have which look.
func layout(t *testing.T, f *excelize.File, parts map[string]string) []string {
	t.Helper()
	var out []string
	looks := map[string]map[string]int{}
	for i, sheet := range f.GetSheetList() {
		name := fmt.Sprintf("sheet%d.xml", i+1)
		xml := parts["xl/worksheets/"+name]
		say := func(what string, tag *regexp.Regexp, text string) {
			var found []string
			for _, m := range tag.FindAllStringSubmatch(text, -1) {
				for i := range m[1:] {
					m[i+1] = short(m[i+1])
				}
				found = append(found, strings.TrimSpace(strings.Join(m[1:], " ")))
			}
			if len(found) > 0 {
				out = append(out, fmt.Sprintf("%s %s: %s", sheet, what, repeats(found)))
			}
		}
		say("columns", columnTag, xml)
		say("heights", rowTag, xml)
		say("joined", joinTag, xml)
		say("a page ends below", breakTag, xml)
		say("scrolls from", paneTag, xml)
		for _, m := range lookTag.FindAllStringSubmatch(xml, -1) {
			at, err := strconv.Atoi(m[1])
			if err != nil {
				t.Fatal(err)
			}
			style, err := f.GetStyle(at)
			if err != nil {
				t.Fatal(err)
			}
			look := described(style)
			if looks[look] == nil {
				looks[look] = map[string]int{}
			}
			looks[look][sheet]++
		}
		for _, d := range targetTag.FindAllStringSubmatch(parts["xl/worksheets/_rels/"+name+".rels"], -1) {
			say("charts", anchorTag, parts["xl/"+d[1]])
			for _, c := range targetTag.FindAllStringSubmatch(parts[strings.Replace("xl/"+d[1], "drawings/", "drawings/_rels/", 1)+".rels"], -1) {
				say("axes", axisTag, parts["xl/"+c[1]])
			}
		}
	}
	for _, look := range slices.Sorted(maps.Keys(looks)) {
		out = append(out, fmt.Sprintf("look %s: %v", look, looks[look]))
	}
	return out
}

// described is a look in a few words.
func described(s *excelize.Style) string {
	var out []string
	if s.CustomNumFmt != nil {
		out = append(out, *s.CustomNumFmt)
	}
	if s.Font != nil {
		out = append(out, fmt.Sprintf("%g %s", s.Font.Size, s.Font.Color)+choose(s.Font.Bold, " bold", ""))
	}
	if len(s.Fill.Color) > 0 {
		out = append(out, "on "+s.Fill.Color[0])
	}
	for _, b := range s.Border {
		out = append(out, fmt.Sprintf("%s %d", b.Type, b.Style))
	}
	if a := s.Alignment; a != nil {
		out = append(out, a.Horizontal+"/"+a.Vertical, choose(a.Indent > 0, "indented", ""), choose(a.WrapText, "wrapped", ""))
	}
	if s.Protection != nil && !s.Protection.Locked {
		out = append(out, "open")
	}
	return strings.Join(slices.DeleteFunc(out, func(word string) bool { return word == "" }), ", ")
}

// repeats writes words that follow each other once, with how often.
func repeats(words []string) string {
	var out []string
	for len(words) > 0 {
		n := 1
		for n < len(words) && words[n] == words[0] {
			n++
		}
		word := words[0]
		if n > 1 {
			word += fmt.Sprintf(" x%d", n)
		}
		out, words = append(out, word), words[n:]
	}
	return strings.Join(out, ", ")
}

// short is a value with figures to three digits.
func short(value string) string {
	if x, err := strconv.ParseFloat(value, 64); err == nil {
		return fmt.Sprintf("%.3g", x)
	}
	return value
}
