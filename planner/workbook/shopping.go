package workbook

import (
	"fmt"

	"example.com/tripwear/planner"
)

// Columns of the Shopping list that formulas point to.
const (
	shopPrice = 4
	shopShelf = 5
	shopMark  = 8
)

var shopWidths = []float64{34, 20, 14, 11, 10, 12, 8, 9}

// yesNo is whether an item lies on the shelf already.
var yesNo = []string{"yes", "no"}

// shopping lists what to buy and what it costs.
func (b *book) shopping() {
	s := b.shop
	s.title("Shopping list", "In the order it is needed. Prices are in the owner's currency, labour and fuel not counted; write in what you found. An item without a price counts nothing.")
	s.warn(whenever(b.spent(), "PRICES CHANGED: the sum is live; what to buy was decided at the prices as planned.", whenever(b.changed(), choiceMessage, `""`)))
	s.add(left("Item"), left("How much"), left("Buy"), right(b.priced("Price")), left("On the shelf"), right("Order by"), center("Got it"), left("Changed"))
	s.head = len(s.rows)
	if len(b.p.Shopping) == 0 {
		s.span(look{}, "Nothing to buy.")
		s.hide(1, number(look{}, "0", 0))
		b.costs(s)
		return
	}
	first := s.next()
	total := 0.0
	for _, it := range b.p.Shopping {
		b.item(s, it)
		total += cost(it)
	}
	last := s.next() - 1
	all := func(col int) string { return s.at(col, first, 0).upTo(s.at(col, last, 0), s) }
	sum := look{total: true}
	n := s.add(text(sum, "Still to pay"), blank(sum), blank(sum),
		live(sum, asWhole, fmt.Sprintf(`SUMIF(%s,"no",%s)`, all(shopShelf), all(shopPrice)), total), blank(sum), blank(sum), blank(sum), blank(sum))
	b.fits.pay = s.at(shopPrice, n, total)
	s.hide(1, live(look{}, "0", fmt.Sprintf("SUM(%s)", s.hiddenAt(0, first, 0).upTo(s.hiddenAt(0, last, 0), s)), 0))
	b.costs(s)
}

// priced names a price in the owner's currency, where he gave it a name.
func (b *book) priced(name string) string {
	if b.p.Currency == "" {
		return name
	}
	return name + ", " + b.p.Currency
}

// cost is what is still to be paid for an item.
func cost(it planner.Item) float64 {
	if it.OnShelf || !finite(it.Price) {
		return 0
	}
	return it.Price
}

// item is a row of the list.
func (b *book) item(s *sheet, it planner.Item) {
	box, n := look{box: true}, s.next()
	price, order := cell{look: look{input: true, format: asWhole}}, blank(box)
	if it.Price > 0 && finite(it.Price) {
		price = number(look{input: true}, asWhole, it.Price)
	}
	shelf := choose(it.OnShelf, "yes", "no")
	if !it.OrderBy.IsZero() {
		order = day(box, it.OrderBy)
		if it.Late {
			order = text(look{weight: act}, "TOO LATE: "+it.OrderBy.Format("2 Jan 2006"))
		}
	}
	priceAt, shelfAt := s.at(shopPrice, n, 0).in(s), s.at(shopShelf, n, 0).in(s)
	s.restrict(priceAt, rule{most: noMore})
	s.restrict(shelfAt, rule{words: yesNo})
	at := func(i int) string { return s.hiddenAt(i, n, 0).in(s) }
	s.add(text(look{weight: strong, box: true}, it.Name), text(box, it.Quantity(b.u.system)), text(box, it.Buy), price, text(look{input: true}, shelf), order, blank(look{input: true}),
		told(look{box: true, weight: warning}, fmt.Sprintf(`IF(%s>0,"changed","")`, at(0)), ""))
	planned := price
	planned.look = look{}
	if planned.value == nil {
		planned = number(look{}, asWhole, 0)
	}
	s.hide(n, live(look{}, "0", fmt.Sprintf("IF(OR(%s<>%s,%s<>%s),1,0)", priceAt, at(1), shelfAt, at(2)), 0), planned, text(look{}, shelf))
}

// costs is the trip's budget by kind, and its picture. Fuel and parts are
// live; the rest is what the plan makes it.
func (b *book) costs(s *sheet) {
	if len(b.p.Budget) == 0 {
		return
	}
	s.section("What the trip costs")
	c := chart{
		title: "Where the money goes", alt: "Bar chart of what the trip costs by kind of expense.",
		x: "expense", y: b.priced("amount"), format: asWhole, bars: true, lines: []line{{name: "Amount"}},
	}
	first := s.next()
	total := 0.0
	for _, kind := range planner.ExpenseKinds {
		v := b.p.Spend(kind)
		amount := asPlanned(number(look{box: true}, asWhole, v))
		note := "as planned"
		switch {
		case kind == planner.ForParts && b.fits.pay.sheet != "":
			v = b.fits.pay.v
			amount, note = live(look{box: true}, asWhole, b.fits.pay.in(s), v), "from the list above"
		case kind == planner.ForFuel && b.totals.fuel.v > 0:
			amount, note = b.fuelCost(s, v)
		}
		n := s.add(text(look{weight: strong, box: true}, kind), text(look{weight: quiet, box: true}, note), blank(look{box: true}), amount)
		c.labels = append(c.labels, kind)
		c.lines[0].values = append(c.lines[0].values, v)
		c.lines[0].formulas = append(c.lines[0].formulas, s.at(shopPrice, n, v).in(s))
		total += v
	}
	sum := look{total: true}
	s.add(text(sum, "In all"), blank(sum), blank(sum),
		live(sum, asWhole, fmt.Sprintf("SUM(%s)", s.at(shopPrice, first, 0).upTo(s.at(shopPrice, s.next()-1, 0), s)), total))
	s.chart(c)
}

// fuelCost is the fuel at the price that the plan counts.
func (b *book) fuelCost(s *sheet, planned float64) (cell, string) {
	price := tidy(planned / b.totals.fuel.v)
	decimals := 2
	return live(look{box: true}, asWhole, fmt.Sprintf("%s*%s", literal(price), b.totals.fuel.in(s)), price*b.totals.fuel.v),
		"live, at " + fixed(price, decimals) + " a " + b.u.fuel.name
}
