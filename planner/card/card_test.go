package card

import (
	"bytes"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"golang.org/x/net/html"

	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/randomcar"
	"example.com/tripwear/profiles/quantity"
)

func planned(t *testing.T, demo string) *plan.Plan {
	t.Helper()
	f, trip := randomcar.Demo(t, demo)
	p, err := planner.Make(f, trip, planner.Options{Draws: 500})
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func set(t *testing.T, p *plan.Plan, u quantity.System) string {
	t.Helper()
	var out bytes.Buffer
	if err := HTML(&out, p, u); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

// The card is one file that needs nothing else, and what a reader by ear needs
// is there: one title, headings in their order, captions, scopes, words for every
// drawing, and links that lead somewhere.
func TestPage(t *testing.T) {
	for _, demo := range []string{"juniper", "fjord"} {
		text := set(t, planned(t, demo), quantity.US)
		if len(text) > 150_000 {
			t.Errorf("%s: %d bytes", demo, len(text))
		}
		for _, outside := range []string{"<script", "http:", "https:", "url(", "@import", "src="} {
			if strings.Contains(text, outside) {
				t.Errorf("%s: the page has %q", demo, outside)
			}
		}
		root, err := html.Parse(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		count, ids, links, level := map[string]int{}, map[string]bool{}, []string{}, 0
		var open []string
		var walk func(n *html.Node)
		walk = func(n *html.Node) {
			if n.Type == html.ElementNode {
				count[n.Data]++
				attr := map[string]string{}
				for _, a := range n.Attr {
					attr[a.Key] = a.Val
				}
				if id := attr["id"]; id != "" && ids[id] {
					t.Errorf("%s: id %s is there twice", demo, id)
				} else if id != "" {
					ids[id] = true
				}
				switch n.Data {
				case "h1", "h2", "h3":
					now := int(n.Data[1] - '0')
					if now > level+1 {
						t.Errorf("%s: %s after h%d", demo, n.Data, level)
					}
					level = now
				case "a":
					links = append(links, strings.TrimPrefix(attr["href"], "#"))
				case "th":
					if attr["scope"] == "" {
						t.Errorf("%s: a head of a table without scope", demo)
					}
				case "table":
					if n.FirstChild == nil || n.FirstChild.Data != "caption" {
						t.Errorf("%s: a table without caption", demo)
					}
				case "svg":
					if attr["role"] != "img" || len(attr["aria-label"]) < 20 {
						t.Errorf("%s: a drawing without words", demo)
					}
				}
			}
			open = append(open, n.Data)
			for c := n.FirstChild; c != nil; c = c.NextSibling {
				walk(c)
			}
			open = open[:len(open)-1]
		}
		walk(root)
		if count["h1"] != 1 || count["main"] != 1 || count["svg"] < 4 {
			t.Errorf("%s: %v", demo, count)
		}
		for _, link := range links {
			if !ids[link] {
				t.Errorf("%s: a link to #%s, which is not there", demo, link)
			}
		}
		for _, must := range []string{"Inspect before every session", "cords", "maker&#39;s limits", "qualified mechanic", "prefers-color-scheme:dark", "@media print"} {
			if !strings.Contains(text, must) {
				t.Errorf("%s: no %q", demo, must)
			}
		}
	}
}

// Every color that words or lines with a meaning have stands out from its ground
// by the contrast that WCAG 2.2 asks of level AA, success criteria 1.4.3 and
// 1.4.11; the formula of relative luminance is the one it gives.
func TestContrast(t *testing.T) {
	color := regexp.MustCompile(`--(\w+):#([0-9a-f]{3,6})`)
	for _, root := range regexp.MustCompile(`:root\{[^}]*\}`).FindAllString(form, -1) {
		colors := map[string]float64{}
		for _, m := range color.FindAllStringSubmatch(root, -1) {
			colors[m[1]] = luminance(t, m[2])
		}
		for name, least := range map[string]float64{"fg": 7, "mute": 7, "stop": 4.5, "act": 4.5, "bring": 4.5, "rule": 3} {
			for _, ground := range []string{"bg", "day", "band"} {
				a, b := colors[name], colors[ground]
				if ratio := (math.Max(a, b) + 0.05) / (math.Min(a, b) + 0.05); ratio < least && (ground == "bg" || ratio < 3 && name != "rule") {
					t.Errorf("%s on %s: %.1f, want %.1f, in %s", name, ground, ratio, least, root)
				}
			}
		}
	}
}

func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	if len(hex) == 3 {
		hex = string([]byte{hex[0], hex[0], hex[1], hex[1], hex[2], hex[2]})
	}
	sum := 0.0
	for i, weight := range []float64{0.2126, 0.7152, 0.0722} {
		v, err := strconv.ParseUint(hex[2*i:2*i+2], 16, 8)
		if err != nil {
			t.Fatal(err)
		}
		c := float64(v) / 255
		if c <= 0.04045 {
			c /= 12.92
		} else {
			c = math.Pow((c+0.055)/1.055, 2.4)
		}
		sum += float64(weight * c)
	}
	return sum
}

// The formula of contrast gives what is published for black on white, 21, and
// for #777 on white, 4.48 (from memory).
func TestLuminance(t *testing.T) {
	white := luminance(t, "fff")
	for hex, want := range map[string]float64{"000": 21, "777777": 4.48} {
		if got := (white + 0.05) / (luminance(t, hex) + 0.05); math.Abs(got-want) > 0.01 {
			t.Errorf("#%s: %.3f, want %.2f", hex, got, want)
		}
	}
}

// The card's expected figures are those that the plan's checks print.
func TestFiguresAgree(t *testing.T) {
	for _, demo := range []string{"juniper", "fjord"} {
		p := planned(t, demo)
		compared := 0
		for _, c := range p.Checks {
			for _, w := range p.Courses {
				if c.Set != w.Set || c.Place != w.Place || c.Zone != w.Zone || c.Measure != w.Measure {
					continue
				}
				for _, r := range c.Expect {
					want := r.Level
					if w.New > 0 && r.Leg >= w.New && r.Spare > 0 {
						want = r.Spare
					}
					compared++
					if math.Abs(want-w.Level[r.Leg]) > 1e-9 {
						t.Errorf("%s %s %s before leg %d: the checks expect %.5f, the course %.5f", demo, c.Set, c.Place, r.Leg+1, want, w.Level[r.Leg])
					}
				}
			}
		}
		if compared < 10 {
			t.Errorf("%s: only %d figures compared", demo, compared)
		}
		card := Of(p, quantity.US)
		for i, row := range card.Rows {
			if len(row.Cells) != len(card.Columns) {
				t.Errorf("%s row %d: %d cells, %d columns", demo, i+1, len(row.Cells), len(card.Columns))
			}
		}
		if n := len(card.Rows); card.Rows[n-1].What != "back home" || card.Rows[0].What != "leave home" {
			t.Errorf("%s: from %q to %q", demo, card.Rows[0].What, card.Rows[n-1].What)
		}
	}
}

// The drawing's loaded side is that of the circuit's turns: Heron Flats turns left
// more than right, which loads the right-hand wheels (ISO 8855).
func TestLoadedSide(t *testing.T) {
	c := Of(planned(t, "juniper"), quantity.US)
	if c.Lap == nil || c.Lap.Name != "Heron Flats" || c.Lap.Side != "right" {
		t.Fatalf("%+v", c.Lap)
	}
	if c.Wheel("right") != "wf" || c.Wheel("left") != "wo" {
		t.Error("the wheels drawn solid are not those loaded")
	}
	if !strings.Contains(c.Lap.Note, "6 left turns") || !strings.Contains(c.Lap.Note, "3 right turns") {
		t.Errorf("%s: the circuit's list has six and three", c.Lap.Note)
	}
}

// What is ordered at a price that nobody knows is no sum of 0.
func TestUnknownPrices(t *testing.T) {
	p := planned(t, "fjord")
	if got := Of(p, quantity.Metric).Ordered; got != "1 not known" {
		t.Errorf("one order, %q", got)
	}
	p = planned(t, "juniper")
	p.Shopping[p.Answer.Orders[0]].Price = quantity.Unknown()
	if got := Of(p, quantity.US).Ordered; !strings.HasPrefix(got, "$") || !strings.HasSuffix(got, ", 1 not known") {
		t.Errorf("some orders, %q", got)
	}
}
