package expr

import (
	"math"
	"slices"
	"strconv"
	"strings"
)

// none is the value of what has none, such as a division by nothing.
var none = Value{Num: math.NaN()}

func truth(yes bool) Value { return Value{Num: choose(yes, 1.0, 0)} }

// value works a node out.
func (n *node) value(args []X) Value {
	switch n.kind {
	case argument:
		return args[n.arg].Value()
	case minus:
		return Value{Num: -n.kids[0].value(args).Num}
	case grouped:
		return n.kids[0].value(args)
	case operation:
		left, right := n.kids[0].value(args), n.kids[1]
		if n.text == "*" && right.text == "^" && right.kids[1].v.Num == 2 {
			// factor by factor, from the left: the order decides the last digit
			factor := right.kids[0].value(args)
			return operate("*", operate("*", left, factor), factor)
		}
		return operate(n.text, left, right.value(args))
	case call:
		return n.called(args)
	}
	return n.v
}

// operate works out an operator. Each result is rounded by itself, so that it
// is the same on any machine.
func operate(sign string, a, b Value) Value {
	x, y := a.Num, b.Num
	switch sign {
	case "+":
		return Value{Num: float64(x + y)}
	case "-":
		return Value{Num: float64(x - y)}
	case "*":
		return Value{Num: float64(x * y)}
	case "/":
		return Value{Num: float64(x / y)}
	case "^":
		return Value{Num: power(x, y)}
	case "&":
		return Text(a.Text + b.Text).Value()
	case "=":
		return truth(equal(a, b))
	case "<>":
		return truth(!equal(a, b))
	}
	if a.IsText || b.IsText { // in spreadsheets any text is more than any number
		x, y = truth(a.IsText).Num, truth(b.IsText).Num
	}
	switch sign {
	case "<":
		return truth(x < y)
	case "<=":
		return truth(x <= y)
	case ">":
		return truth(x > y)
	}
	return truth(x >= y)
}

// power multiplies where the exponent is small and whole.
func power(x, y float64) float64 {
	switch y {
	case 2:
		return float64(x * x)
	case 3:
		return float64(float64(x*x) * x)
	}
	return math.Pow(x, y)
}

func equal(a, b Value) bool {
	return a.IsText == b.IsText && a.Num == b.Num && strings.EqualFold(a.Text, b.Text)
}

// lazy functions work out only what they need.
var lazy = []string{"IF", "INDEX", "MATCH", "COUNTIF", "SUMIF"}

func (n *node) called(args []X) Value {
	switch n.text {
	case "IF":
		if n.kids[0].value(args).Num != 0 {
			return n.kids[1].value(args)
		}
		return n.kids[2].value(args)
	case "INDEX":
		all, at := n.kids[0].run(args), n.kids[1].value(args).Num
		if !(at >= 1 && at <= float64(len(all))) {
			return none
		}
		return all[int(at)-1].V
	case "MATCH":
		want := n.kids[0].value(args)
		at := slices.IndexFunc(n.kids[1].run(args), func(r Ref) bool { return equal(r.V, want) })
		return choose(at < 0, none, Value{Num: float64(at + 1)})
	case "COUNTIF", "SUMIF":
		total, want, all := 0.0, n.kids[1].value(args), n.kids[0].run(args)
		for i, r := range all {
			if !equal(r.V, want) {
				continue
			}
			each := 1.0
			if n.text == "SUMIF" {
				each = n.kids[2].run(args)[i].V.Num
			}
			total += each
		}
		return Value{Num: total}
	}
	return functions[n.text](n.values(args))
}

// run is the cells of an argument that is a run of them.
func (n *node) run(args []X) Run {
	if n.kind != argument {
		return nil
	}
	cells, _ := args[n.arg].(Run)
	return cells
}

// values are what a function works on. Of a run texts do not count, nor what
// is no number and so stands as a dash.
func (n *node) values(args []X) []Value {
	out := make([]Value, 0, len(n.kids))
	for _, k := range n.kids {
		cells := k.run(args)
		if cells == nil {
			out = append(out, k.value(args))
		}
		for _, r := range cells {
			if !r.V.IsText && !math.IsNaN(r.V.Num) && !math.IsInf(r.V.Num, 0) {
				out = append(out, r.V)
			}
		}
	}
	return out
}

// functions that formulas may use. All are older than the format.
var functions = map[string]func([]Value) Value{
	"AND":      func(v []Value) Value { return truth(!slices.ContainsFunc(v, func(v Value) bool { return v.Num == 0 })) },
	"OR":       func(v []Value) Value { return truth(slices.ContainsFunc(v, func(v Value) bool { return v.Num != 0 })) },
	"SUM":      func(v []Value) Value { return Value{Num: sum(v)} },
	"MAX":      func(v []Value) Value { return extreme(v, func(a, b float64) float64 { return max(a, b) }) },
	"MIN":      func(v []Value) Value { return extreme(v, func(a, b float64) float64 { return min(a, b) }) },
	"ISNUMBER": func(v []Value) Value { return truth(!v[0].IsText && !math.IsNaN(v[0].Num)) },
	"ISTEXT":   func(v []Value) Value { return truth(v[0].IsText) },
	"VALUE": func(v []Value) Value {
		if n, err := strconv.ParseFloat(strings.TrimSpace(v[0].Text), 64); err == nil && v[0].IsText {
			return Value{Num: n}
		}
		return choose(v[0].IsText, none, v[0])
	},
	"SUBSTITUTE": func(v []Value) Value {
		return choose(v[0].IsText, Text(strings.ReplaceAll(v[0].Text, v[1].Text, v[2].Text)).Value(), v[0])
	},
	"EXP":       of(math.Exp),
	"INT":       of(math.Floor),
	"LN":        of(math.Log),
	"SQRT":      of(math.Sqrt),
	"NORMSDIST": of(func(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }),
	"FIXED":     func(v []Value) Value { return Text(Fixed(v[0].Num, int(v[1].Num))).Value() },
	"LEFT": func(v []Value) Value {
		r := []rune(v[0].Text)
		return Text(r[:min(len(r), int(v[1].Num))]).Value()
	},
}

func of(f func(float64) float64) func([]Value) Value {
	return func(v []Value) Value { return Value{Num: f(v[0].Num)} }
}

func sum(values []Value) float64 {
	total := 0.0
	for _, v := range values {
		total += v.Num
	}
	return total
}

func extreme(values []Value, of func(a, b float64) float64) Value {
	if len(values) == 0 {
		return Value{}
	}
	out := values[0].Num
	for _, v := range values[1:] {
		out = of(out, v.Num)
	}
	return Value{Num: out}
}
