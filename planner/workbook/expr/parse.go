package expr

import (
	"slices"
	"strconv"
	"strings"
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

// operators by how tightly they hold, the longer ones first.
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

// parser reads a formula without spaces, as spreadsheets write it: small
// letters are the arguments.
type parser struct {
	text    string
	at      int
	letters int
}

func (p *parser) fail() {
	panic("expr: " + p.text + " is no formula at " + strconv.Itoa(p.at))
}

// take goes past a sign where it comes next.
func (p *parser) take(sign string) bool {
	if !strings.HasPrefix(p.text[p.at:], sign) {
		return false
	}
	p.at += len(sign)
	return true
}

func (p *parser) must(sign string) {
	if !p.take(sign) {
		p.fail()
	}
}

func (p *parser) comparison() *node { return p.sides(compares) }

// sides reads operations of a level and of what holds tighter.
func (p *parser) sides(level int) *node {
	if level == unary {
		return p.signed()
	}
	left := p.sides(level + 1)
	for {
		i := slices.IndexFunc(operators[level], p.take)
		if i < 0 {
			return left
		}
		left = &node{kind: operation, holds: level, text: operators[level][i], kids: []*node{left, p.sides(level + 1)}}
	}
}

func (p *parser) signed() *node {
	if p.take("-") {
		return &node{kind: minus, holds: unary, kids: []*node{p.signed()}}
	}
	if p.take("(") {
		n := &node{kind: grouped, holds: atom, kids: []*node{p.comparison()}}
		p.must(")")
		return n
	}
	if p.take(`"`) {
		return p.quoted()
	}
	from := p.at
	for p.at < len(p.text) && strings.IndexByte("ABCDEFGHIJKLMNOPQRSTUVWXYZ.0123456789", p.text[p.at]) >= 0 {
		p.at++
		if p.text[p.at-1] == 'E' && p.text[from] <= '9' {
			p.take("-")
		}
	}
	word := p.text[from:p.at]
	switch {
	case word == "" && p.at < len(p.text) && p.text[p.at] >= 'a' && p.text[p.at] <= 'z':
		p.at++
		p.letters = max(p.letters, int(p.text[from]-'a')+1)
		return &node{kind: argument, arg: int(p.text[from] - 'a')}
	case word == "TRUE":
		return &node{holds: atom, text: word, v: truth(true)}
	case p.take("("):
		return p.called(word)
	}
	v, err := strconv.ParseFloat(word, 64)
	if err != nil {
		p.fail()
	}
	return &node{holds: atom, text: word, v: Value{Num: v}}
}

func (p *parser) quoted() *node {
	end := strings.IndexByte(p.text[p.at:], '"')
	if end < 0 {
		p.fail()
	}
	t := p.text[p.at : p.at+end]
	p.at += end + 1
	return &node{holds: atom, text: `"` + t + `"`, v: Text(t).Value()}
}

func (p *parser) called(name string) *node {
	if _, ok := functions[name]; !ok && !slices.Contains(lazy, name) {
		p.fail()
	}
	n := &node{kind: call, holds: atom, text: name}
	for {
		n.kids = append(n.kids, p.comparison())
		if !p.take(",") {
			p.must(")")
			return n
		}
	}
}
