package workbook

import "example.com/tripwear/planner"

// shopping lists what to buy and what it costs.
func (b *book) shopping() *sheet {
	s := &sheet{name: "Shopping list", widths: []float64{38, 24, 15, 12, 11, 13, 9}}
	s.title("Shopping list", "In the order it is needed. Prices are in the owner's currency, labour and fuel not counted; an item without a price counts nothing.")
	s.add(left("Item"), left("Part"), left("Buy"), right("Price"), left("On the shelf"), right("Order by"), center("Got it"))
	s.head = 3
	if len(b.p.Shopping) == 0 {
		s.span(look{}, "Nothing to buy.")
		return s
	}
	total := 0.0
	for _, it := range b.p.Shopping {
		s.add(b.item(it)...)
		total += cost(it)
	}
	sum := look{total: true}
	s.add(text(sum, "Still to pay"), blank(sum), blank(sum), number(sum, asWhole, total), blank(sum), blank(sum), blank(sum))
	b.costs(s)
	return s
}

// cost is what is still to be paid for an item.
func cost(it planner.Item) float64 {
	if it.OnShelf || !finite(it.Price) {
		return 0
	}
	return it.Price
}

func (b *book) item(it planner.Item) []cell {
	box := look{box: true}
	price, shelf, order := text(look{box: true, across: "right"}, "not known"), text(box, "no"), blank(box)
	if it.Price > 0 {
		price = number(box, asWhole, it.Price)
	}
	if it.OnShelf {
		shelf = text(box, "yes")
	}
	if !it.OrderBy.IsZero() {
		order = day(box, it.OrderBy)
		if it.Late {
			order = text(look{weight: act}, "TOO LATE: "+it.OrderBy.Format("2 Jan 2006"))
		}
	}
	return []cell{text(look{weight: strong, box: true}, it.Name), text(box, it.Part), text(box, it.Buy), price, shelf, order, blank(look{input: true})}
}

// costs charts what is still to pay, item by item.
func (b *book) costs(s *sheet) {
	c := chart{
		title: "Still to pay, by item", alt: "Bar chart of the price of each item still to be bought.",
		x: "item", y: "price, owner's currency", format: asWhole, bars: true, lines: []line{{name: "Price"}},
	}
	for _, it := range b.p.Shopping {
		if v := cost(it); v > 0 {
			c.labels = append(c.labels, it.Name)
			c.lines[0].values = append(c.lines[0].values, v)
		}
	}
	if len(c.labels) > 1 { // one bar compares with nothing
		s.chart(c)
	}
}
