package workbook

import (
	"strings"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"
)

// Columns of the packing that formulas point to.
const (
	trunkVolume = 5
	trunkMass   = 6
)

// trunkRoom is what the packing leaves of the trunk.
type trunkRoom struct{ volume, mass expr.Ref }

// packing lists what goes in the trunk against the room there is.
func packing(v view, s *sheet) (fits trunkRoom) {
	s.section(v.u.system.Words("Packing: spares and their tools against the room in the trunk"))
	s.add(append(append([]cell{left("Item")}, joined(left("How much"), 3)...), center(v.u.trunk.head("Volume")), right(v.u.mass.head("Weight")), center("Packed"), left("Changed"))...)
	p := packSheet{sheet: s, u: v.u}
	for _, it := range v.Packing {
		p.room(text(look{weight: strong, box: true}, it.Name), it.Volume, it.Mass, it.Quantity(v.u.system), blank(look{input: true}))
	}
	if len(v.Packing) == 0 {
		p.none(s.span(look{}, "No spare to pack."))
	}
	fits = p.against(v)
	if len(v.Tools) == 0 {
		return fits
	}
	var tools []string
	for _, t := range v.Tools {
		tools = append(tools, t.Name)
	}
	s.span(look{}, "Tools to take, as planned; they count with the luggage: "+strings.Join(tools, ", ")+".")
	return fits
}

// packSheet is the sheet in the making, with its columns so far.
type packSheet struct {
	*sheet
	u                     units
	volumes, masses, flag expr.Run
}

// none counts a row that holds no thing.
func (p *packSheet) none(n int) {
	at := func(col int) expr.Ref { return expr.Ref{Sheet: p.name, Col: col, Row: n, V: empty} }
	p.volumes, p.masses, p.flag = append(p.volumes, at(trunkVolume)), append(p.masses, at(trunkMass)), append(p.flag, at(len(p.widths)+2))
}

// room is a row whose volume and weight are inputs.
func (p *packSheet) room(name cell, volume, kg float64, note string, end cell) {
	d, box := p.draft(look{box: true}), look{box: true}
	d.put(1, name)
	in := func(col int, u unit, v float64) expr.Ref {
		at := d.put(col, input(u.format, u.of(v)))
		p.restrict(at, rule{most: 99_999, room: true})
		return at
	}
	vol, mass := in(trunkVolume, p.u.trunk, volume), in(trunkMass, p.u.mass, kg)
	copy(d.cells[1:], joined(text(box, note), 3))
	d.put(7, end)
	changed := d.changed(vol, mass)
	d.hide(number(look{}, p.u.trunk.format, expr.Tidy(vol.Num())))
	d.hide(number(look{}, p.u.mass.format, expr.Tidy(mass.Num())))
	d.put(shopMark, changedMark(changed))
	d.add()
	p.volumes, p.masses, p.flag = append(p.volumes, vol), append(p.masses, mass), append(p.flag, changed)
}

// sum is a row of what follows from those above.
func (p *packSheet) sum(l look, name string, volume, mass expr.X) trunkRoom {
	d := p.draft(l)
	d.put(1, text(l, name))
	out := trunkRoom{d.put(trunkVolume, live(l, p.u.trunk.format, volume)), d.put(trunkMass, live(l, p.u.mass.format, mass))}
	d.add()
	p.flag = append(p.flag, d.beside(0, empty))
	return out
}

// against sets the packing against the trunk.
func (p *packSheet) against(v view) trunkRoom {
	trunk, u := v.Boot, p.u
	used := p.sum(look{total: true}, "Packing takes", expr.F("SUM(a)", p.volumes), expr.F("SUM(a)", p.masses))
	p.room(text(look{}, "Luggage takes"), trunk.LuggageVol, trunk.LuggageKg, "", blank(look{box: true}))
	p.room(text(look{}, v.u.system.Words("The trunk holds")), trunk.Volume+trunk.LuggageVol, trunk.Payload+trunk.LuggageKg, "", blank(look{box: true}))
	left := func(of expr.Run, used expr.Ref) expr.X {
		return expr.F("a-b-c", of[len(of)-1], of[len(of)-2], used)
	}
	fits := p.sum(look{weight: strong}, "Left over", left(p.volumes, used.volume), left(p.masses, used.mass))
	verdict := expr.F(`IF(AND(a>=-c,b>=-c),"IT FITS.","IT DOES NOT FIT: "&IF(a<-c,FIXED(-a,0,TRUE)&d,"")&IF(AND(a<-c,b<-c)," and ","")&IF(b<-c,FIXED(-b,0,TRUE)&e,""))`,
		fits.volume, fits.mass, expr.Num(plan.TrunkSlack), expr.Text(" "+u.trunk.name+" too big"), expr.Text(" "+u.mass.name+" too heavy"))
	n := p.add(joined(live(look{weight: strong}, "", orNotNumber(roomWrong, verdict)), len(p.widths))...)
	first := p.at(1, n, 0)
	p.mark(first, p.at(len(p.widths), n, 0), expr.F(`OR(LEFT(a,9)="IT DOES N",a=b)`, first, expr.Text(notNumber)), out)
	p.flag = append(p.flag, p.at(len(p.widths)+2, n, 0))
	p.hide(1, flag(expr.F("SUM(a)", p.flag)))
	return fits
}
