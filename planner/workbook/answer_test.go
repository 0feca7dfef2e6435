package workbook

import (
	"fmt"
	"maps"
	"os"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/xuri/excelize/v2"

	"example.com/tripwear/profiles/quantity"
)

// TestListing compares the cells of two demo workbooks, their formulas, rules,
// marks and names, and how they lie on the page (layout), with what was last
// looked at and found good. It comes first:
// a cell out of place is seen here before other tests say what rule it breaks.
// UPDATE=1 rewrites the files.
func TestListing(t *testing.T) {
	for _, c := range []struct {
		car, trip string
		units     quantity.System
	}{{"juniper", "spring", quantity.US}, {"fjord", "midsummer", quantity.Metric}} {
		t.Run(c.car, func(t *testing.T) {
			book := written(t, plan(t, c.car, c.trip), c.units)
			f := opened(t, book)
			got := append(listed(t, f), layout(t, f, parts(t, book))...)
			path := "../../testdata/golden/workbook-" + c.car + ".txt"
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(path, []byte(strings.Join(got, "\n")), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), got); diff != "" {
				t.Errorf("(-want +got):\n%s", diff)
			}
		})
	}
}

var onPicture = regexp.MustCompile(`^(Summary|Tires) \d+\|`)

// TestPicture: README's pictures of the workbook show today's Summary and Tires.
func TestPicture(t *testing.T) {
	shown, err := os.ReadFile("../../testdata/pictures/summary.txt")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, line := range listed(t, reopened(t, plan(t, "juniper", "spring"), quantity.US)) {
		if onPicture.MatchString(line) {
			got = append(got, line)
		}
	}
	if diff := cmp.Diff(strings.Split(strings.TrimSpace(string(shown)), "\n"), got); diff != "" {
		t.Errorf("the pictures are old, make pictures (-picture +workbook):\n%s", diff)
	}
}

// tall is how many rows are listed of sheets that repeat the same for every
// point and leg, or that list what the plan says; the others are listed whole.
const tall = 60

var long = []string{"Circuits", formName, "Assumptions", workingsName}

// listed is a line a row, then the sheet's rules and marks. A formula that says
// the same as the one to its left or above it, seen from where it stands, is
// not written again.
func listed(t *testing.T, f *excelize.File) []string {
	t.Helper()
	var out []string
	for _, n := range f.GetDefinedName() {
		out = append(out, fmt.Sprintf("name %s %s %s", n.Name, n.RefersTo, n.Scope))
	}
	for _, sheet := range f.GetSheetList() {
		said := map[[2]int]string{}
		all := rows(t, f, sheet)
		if slices.Contains(long, sheet) {
			all = all[:min(len(all), tall)]
		}
		for i, row := range all {
			if len(row) == 0 {
				continue
			}
			line := fmt.Sprintf("%s %d", sheet, i+1)
			for j, value := range row {
				at, err := excelize.CoordinatesToCellName(j+1, i+1)
				if err != nil {
					t.Fatal(err)
				}
				formula, err := f.GetCellFormula(sheet, at)
				if err != nil {
					t.Fatal(err)
				}
				line += "|" + short(value)
				if formula == "" {
					continue
				}
				said[[2]int{i, j}] = seenFrom(t, formula, i+1, j+1)
				if now := said[[2]int{i, j}]; now != said[[2]int{i, j - 1}] && now != said[[2]int{i - 1, j}] {
					line += " =" + now
				}
			}
			out = append(out, line)
		}
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
		for _, at := range slices.Sorted(maps.Keys(marks)) {
			for _, m := range marks[at] {
				line := fmt.Sprintf("%s mark %s %s %s %s", sheet, at, m.Type, m.Criteria, m.Value)
				if m.StopIfTrue {
					line += "before all others"
				}
				out = append(out, line)
			}
		}
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
// sight, and how many cells have which look; then where its charts begin and end (columns and rows from 0, the
// offsets in 1/360,000 cm) and what their axes span.
func layout(t *testing.T, f *excelize.File, parts map[string]string) []string {
	t.Helper()
	var out []string
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
		looks := map[string]int{}
		for _, m := range lookTag.FindAllStringSubmatch(xml, -1) {
			looks[m[1]]++
		}
		var found []string
		for id, n := range looks {
			at, err := strconv.Atoi(id)
			if err != nil {
				t.Fatal(err)
			}
			style, err := f.GetStyle(at)
			if err != nil {
				t.Fatal(err)
			}
			found = append(found, fmt.Sprintf("%s look %s: %d", sheet, described(style), n))
		}
		slices.Sort(found) // styles are numbered as they come
		out = append(out, found...)
		for _, d := range targetTag.FindAllStringSubmatch(parts["xl/worksheets/_rels/"+name+".rels"], -1) {
			say("charts", anchorTag, parts["xl/"+d[1]])
			for _, c := range targetTag.FindAllStringSubmatch(parts[strings.Replace("xl/"+d[1], "drawings/", "drawings/_rels/", 1)+".rels"], -1) {
				say("axes", axisTag, parts["xl/"+c[1]])
			}
		}
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

var reference = regexp.MustCompile(`(\$?)\b([A-Z]{1,2})(\$?)([0-9]+)\b`)

// seenFrom writes the relative references of a formula as steps from the cell
// it stands in.
func seenFrom(t *testing.T, formula string, row, column int) string {
	return reference.ReplaceAllStringFunc(formula, func(ref string) string {
		m := reference.FindStringSubmatch(ref)
		col, err := excelize.ColumnNameToNumber(m[2])
		if err != nil {
			t.Fatal(err)
		}
		line, err := strconv.Atoi(m[4])
		if err != nil {
			t.Fatal(err)
		}
		out := "C" + m[2]
		if m[1] == "" {
			out = fmt.Sprintf("C%+d", col-column)
		}
		if m[3] == "" {
			return out + fmt.Sprintf("R%+d", line-row)
		}
		return out + "R" + m[4]
	})
}
