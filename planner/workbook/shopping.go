package workbook

import (
	"fmt"

	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/workbook/expr"

	"example.com/tripwear/planner/workbook/form"
)

// Columns of the shopping that formulas point to.
const (
	shopPrice = 4
	shopShelf = 5
	shopMark  = 8
)

var shopWidths = []float64{24.5, 15, 14, 9, 8.2, 12.5, 7.6, 8}

// yesNo is whether an item lies on the shelf already.
var yesNo = []string{"yes", "no"}

// shopping lists what to buy and what it costs, then what goes in the trunk; pay
// is what is still to be paid, nil where there is nothing to buy.
func shopping(v view, fuel expr.Ref) (s *sheet, pay *expr.Ref, fits trunkRoom) {
	s, pay = bought(v)
	fits = packing(v, s)
	v.costs(s, pay, fuel)
	return s, pay, fits
}

// bought lists what to buy.
func bought(v view) (s *sheet, pay *expr.Ref) {
	s = &sheet{name: shopName, widths: shopWidths}
	s.title(shopName, v.u.system.Words("In the order it is needed. Write in the prices you found, and what things and the luggage really take; an item without a price counts nothing, 0 leaves a thing at home."))
	warnRoom(s, "PRICES OR ROOM CHANGED: the sums are live; what to buy and to bring was decided as planned.")
	s.heads(left("Item"), left("How much"), left("Buy"), right(v.priced("Price")), left("On the shelf"), right("Order by"), center("Got it"), left("Changed"))
	if len(v.Shopping) == 0 {
		s.span(look{}, "Nothing to buy.")
		s.hide(1, number(look{}, "0", 0))
		return s, nil
	}
	var prices, shelves, changed expr.Run
	for _, it := range v.Shopping {
		price, shelf, flag := v.item(s, it)
		prices, shelves, changed = append(prices, price), append(shelves, shelf), append(changed, flag)
	}
	d := s.draft(look{total: true})
	d.put(1, text(look{total: true}, "Still to pay"))
	at := d.put(shopPrice, live(look{total: true}, asWhole, expr.F(`SUMIF(a,"no",b)`, shelves, prices)))
	d.add()
	s.hide(1, flag(expr.F("SUM(a)", changed)))
	return s, &at
}

// priced names a price in the owner's currency, where he gave it a name.
func (v view) priced(name string) string {
	if v.Currency == "" {
		return name
	}
	return name + ", " + v.Currency
}

// item is a row of the list.
func (v view) item(s *sheet, it plan.Item) (priceAt, shelfAt, changed expr.Ref) {
	box, d := look{box: true}, s.draft(look{box: true})
	price, planned := blank(look{input: true, format: asWhole}), number(look{}, asWhole, 0)
	if it.Price > 0 && finite(it.Price) {
		price, planned = number(look{input: true}, asWhole, it.Price), number(look{}, "", it.Price)
	}
	shelf := choose(it.OnShelf, "yes", "no")
	d.put(1, text(look{weight: strong, box: true}, it.Name))
	d.put(2, text(box, it.Quantity(v.u.system)))
	buy := choose(it.Buy == plan.BuyBring, "to bring along", it.Buy)
	if !it.ThereBy.IsZero() {
		buy += fmt.Sprintf("; there by %s %s", it.ThereBy.Format("Mon 2 Jan"), it.ThereFor)
	}
	d.put(3, text(box, buy))
	priceAt, shelfAt = d.put(shopPrice, price), d.put(shopShelf, text(look{input: true}, shelf))
	if priceAt.V.IsText { // an empty cell equals none
		priceAt.V = expr.Value{}
	}
	switch {
	case it.Late && !it.OrderBy.IsZero():
		d.put(6, text(look{weight: act}, "TOO LATE: "+it.OrderBy.Format("2 Jan 2006")))
	case !it.OrderBy.IsZero():
		d.put(6, day(box, it.OrderBy))
	}
	d.put(7, blank(look{input: true}))
	s.restrict(priceAt, rule{most: form.NoMore, optional: true})
	s.restrict(shelfAt, rule{words: yesNo})
	changed = d.changed(priceAt, shelfAt)
	d.hide(planned)
	d.hide(text(look{}, shelf))
	d.put(shopMark, changedMark(changed))
	d.add()
	return priceAt, shelfAt, changed
}

// costs is the trip's budget by kind, and its picture. Fuel and parts are
// live; the rest is what the plan makes it.
func (v view) costs(s *sheet, pay *expr.Ref, fuel expr.Ref) {
	if len(v.Budget) == 0 {
		return
	}
	s.section("What the trip costs, nominal: as decided, nothing stopped short and no luck either way")
	c := chart{
		title: "Where the money goes", alt: "Bar chart of what the trip costs by kind of expense.",
		x: "expense", y: v.priced("amount"), format: asWhole, bars: true, lines: []line{{name: "Amount"}},
	}
	box, total := look{box: true}, look{total: true}
	var amounts expr.Run
	for _, kind := range plan.ExpenseKinds {
		amount, note := asPlanned(number(box, asWhole, v.Spend(kind))), "as planned"
		switch {
		case kind == plan.ForParts && pay != nil:
			amount, note = live(box, asWhole, *pay), "from the list above"
		case kind == plan.ForFuel && fuel.Num() > 0:
			price := expr.Tidy(v.Spend(kind) / fuel.Num())
			amount, note = live(box, asWhole, expr.F("a*b", expr.Num(price), fuel)), "live, at "+expr.Fixed(price, 2)+" a "+v.u.fuel.name
		}
		n := s.add(text(look{weight: strong, box: true}, kind), text(look{weight: quiet, box: true}, note), blank(box), amount)
		at := s.at(shopPrice, n, amount.exact.Num)
		amounts = append(amounts, at)
		c.labels, c.lines[0].values = append(c.labels, kind), append(c.lines[0].values, at)
	}
	s.add(text(total, "In all"), blank(total), blank(total), live(total, asWhole, expr.F("SUM(a)", amounts)))
	if s.left() < 10*chartRow { // only the sheet has it
		s.printed = len(s.rows)
	}
	s.chart(c)
}
