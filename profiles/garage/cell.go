package garage

import (
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/tripwear/profiles/keys"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/sheet"
)

// What a cell says and what the file of a folder would say are the same: a
// number has the unit of its column, its row or its own, a day is a day, and
// what a spreadsheet made of something else that was typed is told.

// thirtySeconds is the unit of a tread depth as gauges show it.
const thirtySeconds = "32nds"

// plainNumber is a number as it is written without a unit, and a fraction.
var (
	plainNumber = regexp.MustCompile(`^-?[0-9]+(\.[0-9]+)?$`)
	plainRatio  = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?/[0-9]+$`)
	withUnit    = regexp.MustCompile(`^(-?[0-9]+(?:\.[0-9]+)?)(/32 in| \S.*)$`)
)

// measured is the kind of measure that a key takes with its unit; nil for any
// other key.
func measured(k keys.Key) *quantity.Kind {
	m, ok := k.Value.Interface().(interface{ Kind() *quantity.Kind })
	if !ok || k.As == "turn" || len(k.Field.Kind(m.Kind()).Units) == 0 {
		return nil
	}
	return k.Field.Kind(m.Kind())
}

// compose is a number with its unit as a file has it.
func compose(number, unit string) string {
	switch plain := strings.ToLower(strings.ReplaceAll(unit, " ", "")); {
	case unit == "":
		return number
	case plain == thirtySeconds || plain == thirtySeconds+"in" || strings.HasPrefix(plain, "/32"):
		return number + "/32 in"
	}
	return number + " " + unit
}

// apart is a text of a file as a number and a unit that compose to it; false
// where there are none.
func apart(text string) (number, unit string, ok bool) {
	m := withUnit.FindStringSubmatch(text)
	if m == nil {
		return "", "", false
	}
	number, unit = m[1], strings.TrimSpace(m[2])
	if unit == "/32 in" {
		unit = thirtySeconds
	}
	return number, unit, canonical(number) && compose(number, unit) == text
}

// canonical says whether a number comes back from a cell as it was written.
func canonical(number string) bool {
	return plainNumber.MatchString(number) && sheet.Cell{Text: number}.Digits() == number
}

// misread is a cell that says nothing that can be trusted.
type misread struct{ what, expected, hint string }

// said is the text of a cell for a key, with a unit for a plain number; "" for
// nothing.
func said(c sheet.Cell, k keys.Key, unit string) (string, *misread) {
	_, dated := k.Value.Interface().(time.Time)
	kind := measured(k)
	typed := c.Form == sheet.Text && !(kind != nil && plainNumber.MatchString(strings.TrimSpace(c.Text)))
	switch {
	case c.Array:
		return "", &misread{"a formula that fills several cells", "a value, or a formula of this cell alone", ""}
	case strings.Contains(c.Formula, "["):
		return "", &misread{"a formula that reads another workbook", "a value, or a formula within this one", ""}
	case c.Formula != "" && c.Text == "":
		return "", &misread{"a formula without its result", "a value", "open the workbook in a spreadsheet program and save it: formulas are not worked out here"}
	case c.Form == sheet.Wrong:
		return "", &misread{c.Text + ", where a formula found no answer", k.Like(), ""}
	case typed:
		return words(c.Text, k, unit), nil
	case c.Form == sheet.Truth:
		return c.Text, nil
	}
	number := c.Digits()
	x, err := strconv.ParseFloat(number, 64)
	if err != nil || math.IsNaN(x) {
		return number, nil // the reader of the value says what is wrong with it
	}
	_, seconds := k.Value.Interface().(quantity.Duration)
	switch day, ok := c.Day(); {
	case dated && ok && (c.Form == sheet.Day || x >= 20_000 && x == math.Floor(x)):
		return day.Format(time.DateOnly), nil
	case c.Form == sheet.Day:
		return "", &misread{"a day, " + day.Format(time.DateOnly) + typedAs(day), k.Like(), "the program took what was typed for a date: format the cell as text and type it again"}
	case seconds && c.Form != sheet.Number:
		return clock(c, x, unit)
	case c.Form == sheet.Clock || c.Form == sheet.Hours:
		return "", &misread{"a time of day", k.Like(), "the program took what was typed for a time: format the cell as text and type it again"}
	case c.Form == sheet.Percent:
		return sheet.Cell{Text: strconv.FormatFloat(x*100, 'g', 15, 64)}.Digits() + " %", nil
	case kind != nil && compose(number, unit) == number+"/32 in" && 0 < x && x < 1 && (c.Form == sheet.Fraction || c.Formula != ""):
		return number + " in", nil
	case kind != nil && compose(number, unit) == number+"/32 in" && 0 < x && x < 1:
		return "", &misread{number + " of a 32nd: is it " + number + " in?", "32nds such as 7.5, or a length with its unit", ""}
	case kind != nil:
		return compose(number, unit), nil
	}
	return number, nil
}

// words is a text for a key.
func words(text string, k keys.Key, unit string) string {
	text = strings.TrimSpace(text)
	switch plain := strings.ToLower(text); {
	case text == "?" && k.Unknown == "written":
		return quantity.UnknownWord
	case text == "?":
		return ""
	case yesNo(k) && (plain == "yes" || plain == "x" || plain == "true"):
		return "true"
	case yesNo(k) && (plain == "no" || plain == "false"):
		return "false"
	case measured(k) != nil && plainRatio.MatchString(text) && (unit == thirtySeconds || unit == "in"):
		return text + " in"
	}
	return text
}

// typedAs is what may have been typed where a spreadsheet shows a day.
func typedAs(day time.Time) string {
	if day.Day() == 1 {
		return fmt.Sprintf(", or was it %d/%d?", day.Month(), day.Year()%100)
	}
	return fmt.Sprintf(", or was it %d/%d?", day.Month(), day.Day())
}

// clock is a duration that a spreadsheet took for a time: of what is shown as
// hours and minutes it was minutes and seconds that were typed.
func clock(c sheet.Cell, days float64, unit string) (string, *misread) {
	seconds := math.Round(days*86400*1000) / 1000
	whole := int(seconds)
	pair := func(a, b int) string { return fmt.Sprintf("%d:%02d", a, b) }
	switch {
	case c.Form == sheet.Hours && seconds == float64(whole) && whole%60 == 0:
		return pair(whole/3600, whole/60%60), nil
	case c.Form == sheet.Clock && whole < 3600 && (whole%60 != 0 || seconds != float64(whole)):
		rest := strconv.FormatFloat(seconds-float64(whole/60*60), 'f', -1, 64)
		if rest = (sheet.Cell{Text: rest}).Digits(); len(rest) == 1 || rest[1] == '.' {
			rest = "0" + rest
		}
		return fmt.Sprintf("%d:%s", whole/60, rest), nil
	case c.Form == sheet.Clock && whole >= 3600 && whole%60 == 0:
		return pair(whole/3600, whole/60%60), nil
	case c.Form == sheet.Clock:
		return "", &misread{
			fmt.Sprintf("a time of day, %d:%02d:%02d", whole/3600, whole/60%60, whole%60), "minutes and seconds such as 1:51.4, or a duration with its unit",
			"the program took what was typed for a time: format the cell as text and type it again",
		}
	}
	return compose(c.Digits(), unit), nil
}

// items are those of a list in a cell: a semicolon or a line parts them where
// there is one, else a comma.
func items(text string) []string {
	mark := ","
	for _, m := range []string{"\n", ";"} {
		if strings.Contains(text, m) {
			mark = m
			break
		}
	}
	var out []string
	for _, s := range strings.Split(text, mark) {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, s)
		}
	}
	return out
}

// joined is the text of a list that items takes apart again.
func joined(list []string) string {
	all := strings.Join(list, "")
	switch {
	case !strings.ContainsAny(all, ",;"):
		return strings.Join(list, ", ")
	case !strings.Contains(all, ";"):
		return strings.Join(list, "; ") + ";"
	}
	return strings.Join(list, "\n") + "\n"
}

// unitsOf are the units that a column may be in.
func unitsOf(k keys.Key) []string {
	kind := measured(k)
	if kind == nil {
		return nil
	}
	var out []string
	for _, u := range kind.Units {
		out = append(out, u.Name)
	}
	if kind.Name == quantity.Length(0).Kind().Name && !slices.Contains(out, thirtySeconds) && small(k) {
		out = append(out, thirtySeconds)
	}
	return out
}

// small says whether a length is one that gauges show in 32nds of an inch.
func small(k keys.Key) bool {
	most, err := quantity.Parse[quantity.Length](k.Max)
	return err == nil && most < 0.1
}

// usualUnit is the unit of the key's range.
func usualUnit(k keys.Key) string {
	if measured(k) == nil || onClock(k) {
		return ""
	}
	_, unit, _ := apart(k.Min)
	return unit
}
