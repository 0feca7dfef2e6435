// Package expr is the arithmetic of the workbook. An expression is written
// once, as the formula that a spreadsheet shows, and gives both the formula
// and the value that it works out to, so that the two cannot differ.
//
//	expr.F("IF(a>0,b/a,0)", laps, fuel)
//
// The letters a, b, c stand for the arguments in their order: cells, runs of
// cells, constants and other expressions.
package expr

import (
	"math"
	"strconv"
	"strings"
	"sync"

	"github.com/xuri/efp"
)

// Value is what a cell holds: a number, or a text. Yes and no are 1 and 0.
type Value struct {
	Num    float64
	Text   string
	IsText bool
}

// X is an expression.
type X interface {
	Value() Value
	// write appends the formula as it reads on a sheet.
	write(b []byte, on string) []byte
	// binds says how tightly its outermost operation holds together.
	binds() int
}

// Formula is an expression as it is written in a cell of a sheet.
func Formula(x X, on string) string { return string(x.write(make([]byte, 0, 192), on)) }

// Num is a number that stands in formulas; it reads back the same.
type Num float64

// Value implements X.
func (n Num) Value() Value { return Value{Num: float64(n)} }

func (n Num) write(b []byte, _ string) []byte {
	return strconv.AppendFloat(b, float64(n), 'G', -1, 64)
}

func (n Num) binds() int { return choose(n < 0, unary, atom) }

// Text is a text that stands in formulas.
type Text string

// Value implements X.
func (t Text) Value() Value { return Value{Text: string(t), IsText: true} }

func (t Text) write(b []byte, _ string) []byte {
	b = append(b, '"')
	b = append(b, strings.ReplaceAll(string(t), `"`, `""`)...)
	return append(b, '"')
}

func (t Text) binds() int { return atom }

// formula is an expression of arguments.
type formula struct {
	root *node
	args []X
	v    Value
}

// F is a formula of its arguments, worked out at once. It panics where the
// formula is none, which is a mistake of the program's and not of its user.
func F(text string, args ...X) X {
	root, letters := parsed(text)
	if letters != len(args) {
		panic("expr: " + text + " takes another number of arguments")
	}
	return &formula{root, args, root.value(args)}
}

// Value implements X.
func (f *formula) Value() Value { return f.v }

func (f *formula) write(b []byte, on string) []byte { return f.root.write(b, f.args, on, compares) }

func (f *formula) binds() int { return f.root.binds(f.args) }

// forms are the formulas that were read before.
var forms sync.Map

type form struct {
	root    *node
	letters int
}

func parsed(text string) (*node, int) {
	if f, ok := forms.Load(text); ok {
		return f.(form).root, f.(form).letters
	}
	reader := efp.ExcelParser()
	p := parser{text: text, tokens: reader.Parse(text)}
	f := form{p.sides(compares), p.letters}
	if len(p.tokens) > 0 {
		p.fail()
	}
	forms.Store(text, f)
	return f.root, f.letters
}

// Fixed prints a number as FIXED does: rounded half away from zero.
func Fixed(v float64, digits int) string {
	scale := math.Pow(10, float64(digits))
	return strconv.FormatFloat(math.Round(v*scale)/scale, 'f', digits, 64)
}

func choose[T any](condition bool, yes, no T) T {
	if condition {
		return yes
	}
	return no
}

// Each is a function of any number of expressions.
func Each(function string, of []X) X {
	root := &node{kind: call, holds: atom, text: function}
	for i := range of {
		root.kids = append(root.kids, &node{kind: argument, arg: i})
	}
	return &formula{root, of, root.value(of)}
}
