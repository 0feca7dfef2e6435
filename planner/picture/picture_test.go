package picture_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/picture"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

func circuit(t *testing.T, id string, d circuits.Drive) *plan.Circuit {
	t.Helper()
	f, _ := randomcar.Demo(t, "juniper")
	c, err := circuits.Describe(f, id, d)
	if err != nil {
		t.Fatal(err)
	}
	return c
}

// element is what a page holds.
type element struct {
	name, class, d, text string
	x, y                 float64
}

// page reads a picture as XML, which is stricter than HTML: what opens is closed.
func page(t *testing.T, c *plan.Circuit, units quantity.System) (string, []*element) {
	t.Helper()
	var b bytes.Buffer
	if err := picture.Write(&b, c, units); err != nil {
		t.Fatal(err)
	}
	d := xml.NewDecoder(strings.NewReader(b.String()))
	var all, open []*element
	for {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return b.String(), all
		}
		if err != nil {
			t.Fatalf("%v in\n%s", err, b.String())
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{name: token.Name.Local}
			for _, a := range token.Attr {
				switch a.Name.Local {
				case "class":
					e.class = a.Value
				case "d":
					e.d = a.Value
				case "x":
					e.x, _ = strconv.ParseFloat(a.Value, 64)
				case "y":
					e.y, _ = strconv.ParseFloat(a.Value, 64)
				}
			}
			all, open = append(all, e), append(open, e)
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(token)
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		}
	}
}

// A page needs nothing from elsewhere, runs nothing, and draws each braking and
// turn that its tables list. Without color left and right differ by the hatch.
func TestCircuitPicture(t *testing.T) {
	c := circuit(t, "heron-flats", circuits.Drive{})
	text, all := page(t, c, quantity.Metric)
	if bad := regexp.MustCompile(`(?i)<script|javascript:|https?:|<link|<img|@import|url\(|\son[a-z]+=`).FindString(text); bad != "" {
		t.Errorf("%q in the page", bad)
	}
	count := map[string]int{}
	hatched := map[string]bool{}
	var labels []string
	var drawn []element
	for i, e := range all {
		class := strings.Fields(e.class + " -")
		count[class[0]]++
		if class[0] == "load" {
			hatched[class[1][:1]] = hatched[class[1][:1]] || all[i+1].class == "hatch"
			if class[1][0] == 'r' && (all[i+1].class != "hatch" || all[i+1].d != e.d) {
				t.Errorf("%s without a hatch", e.class)
			}
		}
		if class[0] == "label" {
			labels = append(labels, e.text)
			drawn = append(drawn, *e)
		}
	}
	if !hatched["r"] || hatched["l"] {
		t.Errorf("hatched: %v", hatched)
	}
	key := 1 // each mark is in the key too
	if n := len(c.Brakings); n < 5 || count["zone"] != n+key || count["bar"] != n+key {
		t.Errorf("%d brakings, %d lines and %d bars", n, count["zone"], count["bar"])
	}
	for i := range c.Turns {
		if !slices.Contains(labels, strconv.Itoa(i+1)) {
			t.Errorf("turn %d has no number in %q", i+1, labels)
		}
	}
	for i, a := range drawn {
		for _, b := range drawn[:i] {
			if math.Abs(a.x-b.x) < 20 && math.Abs(a.y-b.y) < 12 {
				t.Errorf("%s and %s lie on one another", a.text, b.text)
			}
		}
	}
	for _, want := range []string{">anticlockwise", "<title>Heron Flats</title>", "Where north is, is not known.", "<td>left</td>", "0.84 g", "planning estimate"} {
		if !strings.Contains(text, strings.TrimPrefix(want, ">")) {
			t.Errorf("no %q", want)
		}
	}
}

// The other way round every left run is a right one; the name is text, whatever
// it holds.
func TestCircuitPictureReversed(t *testing.T) {
	sides := func(c *plan.Circuit) (left, right int) {
		_, all := page(t, c, quantity.US)
		for _, e := range all {
			left += strings.Count(e.class, "load l")
			right += strings.Count(e.class, "load r")
		}
		return left, right
	}
	ahead, back := circuit(t, "heron-flats", circuits.Drive{}), circuit(t, "heron-flats", circuits.Drive{Direction: circuits.Reverse})
	al, ar := sides(ahead)
	bl, br := sides(back)
	if al <= ar || bl >= br {
		t.Errorf("%d to the left and %d to the right ahead, %d and %d in reverse", al, ar, bl, br)
	}
	ahead.Name = `<b>"Heron" & more`
	if text, _ := page(t, ahead, quantity.US); strings.Contains(text, "<b>") || !strings.Contains(text, "&lt;b&gt;&#34;Heron&#34; &amp; more") {
		t.Error("a name is taken for HTML")
	}
	if err := picture.Write(io.Discard, circuit(t, "quarry-ridge", circuits.Drive{}), quantity.US); err == nil {
		t.Error("a circuit known by its summary is drawn")
	}
}

// The scale is that of the line: a bar of a round length beside a circuit of a
// known width.
func TestCircuitPictureScale(t *testing.T) {
	var c plan.Circuit
	for _, p := range [][2]float64{{0, 0}, {800, 0}, {800, 400}, {0, 400}} {
		c.View.Points = append(c.View.Points, plan.ViewPoint{X: p[0], Y: p[1], V: 20})
	}
	c.Name, c.Meters, c.View.North = "Box", 2400, true
	text, _ := page(t, &c, quantity.Metric)
	// 960 px less twice 56 are 848 for 800 m: 100 m are 106 px, and 200 m would be over 160.
	if !strings.Contains(text, "M0 32h106M0 26v12M106 26v12") || !strings.Contains(text, ">100 m<") || !strings.Contains(text, ">N<") {
		t.Error("the bar is not 106 px for 100 m, or north is not up")
	}
	if !strings.Contains(text, `viewBox="0 0 960 536"`) { // 400 m and twice 56 px
		t.Error("the page is not as high as the line")
	}
}
