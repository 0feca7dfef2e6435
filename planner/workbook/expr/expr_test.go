package expr

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

func at(col, row int, v float64) Ref { return At("Car", col, row, v) }

// TestFunctions by hand: what each function works out to, by the definitions of
// OpenFormula 1.3 (OASIS), parts 6.13 to 6.20; NORMSDIST by table 26.1 of
// Abramowitz and Stegun.
func TestFunctions(t *testing.T) {
	three := Run{at(1, 1, 4), {Sheet: "Car", Col: 1, Row: 2, V: Text("no").Value()}, at(1, 3, 9)}
	words := Run{{V: Text("yes").Value()}, {V: Text("No").Value()}, {V: Text("no").Value()}}
	for formula, want := range map[string]any{
		"1+2*3-4/2":                            5.0,
		"-2^2":                                 4.0, // a sign holds tighter than a power
		"2^3^2":                                64.0,
		"8-3-2":                                3.0,
		"2*3^2":                                18.0,
		"4^0.5":                                2.0,
		"1E-3*1000":                            1.0,
		`"a"&"b"&FIXED(2.345,2,TRUE)`:          "ab2.35",
		"FIXED(-0.5,0,TRUE)":                   "-1",
		"SUM(a)":                               13.0,
		"MAX(a,10)":                            10.0,
		"MIN(a,10)":                            4.0,
		`COUNTIF(b,"NO")`:                      2.0,
		`SUMIF(b,"no",a)`:                      9.0,
		"INDEX(b,MATCH(9,a,0))":                "no",
		"MATCH(5,a,0)":                         math.NaN(),
		"IF(1<2,3,1/0)":                        3.0,
		`IF("a"="A","same","other")`:           "same",
		`IF("">5,1,0)`:                         1.0, // a text is more than any number
		"AND(1,2>1)":                           1.0,
		"OR(0,2<1)":                            0.0,
		"2<>2":                                 0.0,
		"2>=2":                                 1.0,
		"INT(2.9)":                             2.0,
		"INT(-2.1)":                            -3.0,
		"LN(EXP(2))":                           2.0,
		"SQRT(16)":                             4.0,
		`LEFT("ünder",2)`:                      "ün",
		"NORMSDIST(0)":                         0.5,
		`VALUE(SUBSTITUTE("5.5/32","/32",""))`: 5.5,
		`ISNUMBER(VALUE("7 mm"))`:              0.0,
	} {
		_, letters := parsed(formula)
		got := F(formula, []X{three, words}[:letters]...).Value()
		switch want := want.(type) {
		case string:
			if !got.IsText || got.Text != want {
				t.Errorf("%s: %+v, want %q", formula, got, want)
			}
		case float64:
			if got.IsText || !(math.Abs(got.Num-want) < 1e-12) && !(math.IsNaN(want) && math.IsNaN(got.Num)) {
				t.Errorf("%s: %+v, want %v", formula, got, want)
			}
		}
	}
	if got := F("NORMSDIST(a)", Num(1.96)).Value().Num; math.Abs(got-0.9750021048517795) > 1e-12 {
		t.Errorf("NORMSDIST(1.96) is %v", got)
	}
}

// TestPrinted: a formula prints as it is written, its arguments in place; an
// argument that would fall apart is put in parentheses.
func TestPrinted(t *testing.T) {
	d5, far, ab := at(4, 5, 2), At("Legs", 28, 7, 3), F("a+b", at(1, 1, 2), at(2, 1, 3))
	for _, c := range []struct {
		x    X
		want string
		v    float64
	}{
		{d5, "$D$5", 2},
		{d5.Far(), "'Car'!$D$5", 2},
		{d5.Free(), "D5", 2},
		{d5.Down(), "D$5", 2},
		{far, "'Legs'!$AB$7", 3},
		{Run{far, At("Legs", 703, 9, 1)}, "'Legs'!$AB$7:$AAA$9", math.NaN()},
		{F("a*b", ab, d5), "($A$1+$B$1)*$D$5", 10},
		{F("a-b", d5, ab), "$D$5-($A$1+$B$1)", -3},
		{F("a+b", ab, d5), "$A$1+$B$1+$D$5", 7},
		{F("b/(a)", ab, d5), "$D$5/($A$1+$B$1)", 0.4},
		{F("-a", ab), "-($A$1+$B$1)", -5},
		{F("a^2", Num(-3)), "-3^2", 9},
		{F("MAX(0,a)", ab), "MAX(0,$A$1+$B$1)", 5},
		{F("IF(a>-0.000000001,b,1E-300)", ab, Num(1e-18)), "IF($A$1+$B$1>-0.000000001,1E-18,1E-300)", 1e-18},
		{Each("MIN", []X{Num(1), d5, far}), "MIN(1,$D$5,'Legs'!$AB$7)", 1},
	} {
		if got := Formula(c.x, "Car"); got != c.want {
			t.Errorf("printed %s, want %s", got, c.want)
		}
		if got := c.x.Value().Num; got != c.v && !math.IsNaN(c.v) {
			t.Errorf("%s: %v, want %v", c.want, got, c.v)
		}
	}
	if got := Formula(Text(`say "no"`), ""); got != `"say ""no"""` {
		t.Errorf("a text in quotes: %s", got)
	}
}

// TestPrintedReadsBack builds expressions of expressions: what is printed,
// read again, is worth the same.
func TestPrintedReadsBack(t *testing.T) {
	steps := []string{"a+b", "a-b", "a*b", "a/b", "(a-b)", "-a+b", "MAX(a,b)", "IF(a>b,b,a)", "a^2-b", "SQRT(a*a)+b", "2*a-b"}
	rapid.Check(t, func(t *rapid.T) {
		x := X(Num(1.5))
		for range rapid.IntRange(1, 6).Draw(t, "steps") {
			other := X(Num(rapid.IntRange(-3, 9).Draw(t, "other")))
			if rapid.Bool().Draw(t, "swap") {
				x, other = other, x
			}
			x = F(rapid.SampledFrom(steps).Draw(t, "step"), x, other)
		}
		printed := Formula(x, "")
		want, got := x.Value().Num, F(printed).Value().Num
		if math.IsNaN(want) || math.IsInf(want, 0) {
			return
		}
		if math.Abs(got-want) > 1e-9*math.Max(1, math.Abs(want)) {
			t.Errorf("%s is %v, printed from %v", printed, got, want)
		}
	})
}

// TestNoFormula: what is no formula is a mistake of the program's.
func TestNoFormula(t *testing.T) {
	for _, text := range []string{"", "a+", "SUM(a", "SIN(a)", "a b", `"open`, "1.2.3", "a,a", "(a", "b"} {
		func() {
			defer func() {
				if recover() == nil {
					t.Errorf("%q is taken for a formula", text)
				}
			}()
			F(text, Num(1))
		}()
	}
}
