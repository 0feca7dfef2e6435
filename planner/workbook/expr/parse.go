package expr

import (
	"slices"
	"strconv"

	"github.com/xuri/efp"
)

// How tightly operations hold their sides together, from the loosest.
const (
	compares = iota
	joins
	adds
	multiplies
	raises
	unary
	atom
)

// operators by how tightly they hold.
var operators = [...][]string{
	compares: {"<=", ">=", "<>", "<", ">", "="}, joins: {"&"}, adds: {"+", "-"}, multiplies: {"*", "/"}, raises: {"^"},
}

// kind of a node.
type kind int

const (
	constant kind = iota
	argument
	operation // of two sides
	minus
	call
	grouped // in parentheses
)

// node is a part of a formula.
type node struct {
	kind  kind
	holds int
	text  string // of a constant as written, the operator, or the function's name
	v     Value
	arg   int
	kids  []*node
}

// write appends the node; what holds looser than least goes in parentheses.
func (n *node) write(b []byte, args []X, on string, least int) []byte {
	if n.binds(args) < least {
		b = append(b, '(')
		return append(n.write(b, args, on, compares), ')')
	}
	switch n.kind {
	case argument:
		return args[n.arg].write(b, on)
	case operation:
		b = n.kids[0].write(b, args, on, n.holds)
		b = append(b, n.text...)
		return n.kids[1].write(b, args, on, n.holds+1)
	case minus:
		return n.kids[0].write(append(b, '-'), args, on, unary)
	case grouped:
		return append(n.kids[0].write(append(b, '('), args, on, compares), ')')
	case call:
		b = append(append(b, n.text...), '(')
		for i, k := range n.kids {
			if i > 0 {
				b = append(b, ',')
			}
			b = k.write(b, args, on, compares)
		}
		return append(b, ')')
	}
	return append(b, n.text...)
}

func (n *node) binds(args []X) int {
	if n.kind == argument {
		return args[n.arg].binds()
	}
	return n.holds
}

// parser reads a formula as spreadsheets write it: small letters are the
// arguments.
type parser struct {
	text    string
	tokens  []efp.Token
	letters int
}

func (p *parser) fail() { panic("expr: " + p.text + " is no formula") }

func (p *parser) next() efp.Token {
	if len(p.tokens) == 0 {
		p.fail()
	}
	t := p.tokens[0]
	p.tokens = p.tokens[1:]
	return t
}

// sides reads operations of a level and of what holds tighter.
func (p *parser) sides(level int) *node {
	if level == unary {
		return p.operand()
	}
	n := p.sides(level + 1)
	for len(p.tokens) > 0 && p.tokens[0].TType == efp.TokenTypeOperatorInfix && slices.Contains(operators[level], p.tokens[0].TValue) {
		sign := p.next().TValue
		n = &node{kind: operation, holds: level, text: sign, kids: []*node{n, p.sides(level + 1)}}
	}
	return n
}

func (p *parser) operand() *node {
	t := p.next()
	n := &node{holds: atom, text: t.TValue}
	switch {
	case t.TType == efp.TokenTypeOperatorPrefix && t.TValue == "-":
		return &node{kind: minus, holds: unary, kids: []*node{p.operand()}}
	case t.TType == efp.TokenTypeSubexpression, t.TType == efp.TokenTypeFunction:
		return p.inside(n)
	case t.TSubType == efp.TokenSubTypeText:
		n.text, n.v = `"`+t.TValue+`"`, Text(t.TValue).Value()
		return n
	case t.TValue == "TRUE":
		n.v = truth(true)
		return n
	case len(t.TValue) == 1 && t.TValue[0] >= 'a' && t.TValue[0] <= 'z':
		n.kind, n.arg = argument, int(t.TValue[0]-'a')
		p.letters = max(p.letters, n.arg+1)
		return n
	case t.TSubType == efp.TokenSubTypeNumber:
		if v, err := strconv.ParseFloat(t.TValue, 64); err == nil {
			n.v = Value{Num: v}
			return n
		}
	}
	p.fail()
	return nil
}

// inside reads what parentheses hold: the arguments of a function, or what has
// no name.
func (p *parser) inside(n *node) *node {
	n.kind = call
	if n.text == "" {
		n.kind = grouped
	} else if _, ok := functions[n.text]; !ok && !slices.Contains(lazy, n.text) {
		p.fail()
	}
	for {
		n.kids = append(n.kids, p.sides(compares))
		switch t := p.next(); {
		case t.TSubType == efp.TokenSubTypeStop:
			return n
		case t.TType != efp.TokenTypeArgument:
			p.fail()
		}
	}
}
