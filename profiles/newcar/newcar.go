// Package newcar starts a car folder from a dozen answers: what is not asked
// comes from the kind of car and is marked as assumed.
package newcar

import (
	_ "embed"
	"fmt"
	"regexp"
	"strings"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
)

//go:embed kinds.yaml
var kindsFile []byte

// Kind is a kind of car, its measures as written.
type Kind struct {
	ID          string    `yaml:"id"`
	Words       string    `yaml:"words"`
	Drive       string    `yaml:"drive"`
	Power       string    `yaml:"power"`
	Mass        string    `yaml:"mass"`
	FrontWeight string    `yaml:"front_weight"`
	Wheelbase   string    `yaml:"wheelbase"`
	Track       [2]string `yaml:"track"`
	CGHeight    string    `yaml:"cg_height"`
	DragArea    string    `yaml:"drag_area"`
	RollFront   string    `yaml:"roll_front"`
	Tank        string    `yaml:"tank"`
	Road        string    `yaml:"road"`
	Boot        [2]string `yaml:"boot"`
	Oil         string    `yaml:"oil"`
	Front       string    `yaml:"front"`
	Rear        string    `yaml:"rear"`
	Rotor       [2]string `yaml:"rotor"`
	Thick       [2]string `yaml:"thick"`
}

// Kinds are the kinds of car, in the order in which they are offered.
func Kinds() []Kind {
	var out []Kind
	if err := yaml.Load(kindsFile, &out); err != nil {
		panic("the kinds of car cannot be read: " + err.Error()) // they are part of the program
	}
	return out
}

// kindOf is the kind with an id.
func kindOf(id string) Kind {
	for _, k := range Kinds() {
		if k.ID == id {
			return k
		}
	}
	return Kinds()[0]
}

// Answers are what was answered, by the questions' keys.
type Answers map[string]string

// Question is one of a dozen.
type Question struct {
	Key, Ask, Help string
	Usual          func(Answers) string
	Check          func(string) (string, error) // the answer as it is kept
}

// Questions are all of them, in their order.
func Questions() []Question {
	var ids []string
	about := "\n"
	for _, k := range Kinds() {
		ids = append(ids, k.ID)
		about += fmt.Sprintf("  %-9s %s\n", k.ID, k.Words)
	}
	of := func(pick func(Kind) string) func(Answers) string {
		return func(a Answers) string { return pick(kindOf(a["kind"])) }
	}
	fixed := func(s string) func(Answers) string { return func(Answers) string { return s } }
	return []Question{
		{"name", "What is the car called?", "a name for your lists", fixed("My car"), plain},
		{"kind", "What kind of car is it?" + about + "Kind", "what you do not know of it is taken from its kind", fixed("coupe"), oneOf(ids...)},
		{"power", "Power at the engine", "as in its papers, such as 172 hp or 128 kW", of(func(k Kind) string { return k.Power }), measured[quantity.Power]},
		{"mass", "Mass as driven, with driver, luggage and half a tank", "such as 3050 lb or 1385 kg", of(func(k Kind) string { return k.Mass }), measured[quantity.Mass]},
		{"drive", "Driven wheels: rear, front or all", "which axle the engine drives", of(func(k Kind) string { return k.Drive }), oneOf("rear", "front", "all")},
		{"odometer", "Odometer today", "with its unit, such as 143200 mi or 230000 km", fixed("100000 mi"), measured[quantity.Length]},
		{"front", "Size of the front tires, as printed on the sidewall", "such as 205/50R16", of(func(k Kind) string { return k.Front }), size},
		{"rear", "Size of the rear tires", "such as 225/45R16", func(a Answers) string {
			if k := kindOf(a["kind"]); a["front"] == k.Front {
				return k.Rear
			}
			return a["front"]
		}, size},
		{"treadwear", "Treadwear grade on the sidewall, or ? if you do not know", "a number after TREADWEAR, such as 200 or 340", fixed("300"), treadwear},
		{"pads", "Pads: street, street-performance or track", "what the box or your shop said; street if nobody knows", fixed("street-performance"), oneOf("street", "street-performance", "track")},
		{"age", "Miles and circuit days of the tires and brakes on it, or ? if you do not know", "such as 9000 mi, 2 days; ? is planned from the worse until you read them", fixed("?"), age},
		{"currency", "Currency of your prices", "three letters, such as USD or EUR", fixed("USD"), currency},
	}
}

func plain(s string) (string, error) {
	if strings.ContainsAny(s, "\n\"\\#:{}[]") || len(s) > 60 {
		return "", fmt.Errorf("a name has up to 60 letters, digits and blanks")
	}
	return s, nil
}

func oneOf(words ...string) func(string) (string, error) {
	return func(s string) (string, error) {
		low := strings.ToLower(strings.TrimSpace(s))
		for _, w := range words {
			if low == w {
				return w, nil
			}
		}
		return "", fmt.Errorf("%s", nearest.Unknown("word", s, words)+", expected "+nearest.OneOf(words))
	}
}

func measured[T quantity.Measured](s string) (string, error) {
	if _, err := quantity.Parse[T](s); err != nil {
		return "", err
	}
	return s, nil
}

func size(s string) (string, error) {
	var width, height, rim float64
	text := strings.ToUpper(strings.ReplaceAll(s, " ", ""))
	if n, _ := fmt.Sscanf(strings.NewReplacer("P", "", "ZR", "R").Replace(text), "%f/%fR%f", &width, &height, &rim); n < 3 || width < 80 || width > 450 || rim < 10 || rim > 24 {
		return "", fmt.Errorf("%s is no tire size, expected such as 205/50R16", s)
	}
	return fmt.Sprintf("%.0f/%.0fR%.0f", width, height, rim), nil
}

func treadwear(s string) (string, error) {
	if s == "?" {
		return s, nil
	}
	var grade float64
	if n, err := fmt.Sscanf(s, "%f", &grade); n < 1 || err != nil || grade < 20 || grade > 1000 {
		return "", fmt.Errorf("%s is no treadwear grade, expected 20 to 1000, or ?", s)
	}
	return fmt.Sprintf("%.0f", grade), nil
}

// aged is a distance and a number of days.
var aged = regexp.MustCompile(`^([^,]+?)(?:,? +(\d{1,3}) *(?:circuit )?(?:days?)?)?$`)

func age(s string) (string, error) {
	if s == "?" {
		return s, nil
	}
	m := aged.FindStringSubmatch(strings.TrimSpace(s))
	if m == nil {
		return "", fmt.Errorf("%s is no age, expected miles and circuit days", s)
	}
	if _, err := quantity.Parse[quantity.Length](strings.TrimSuffix(m[1], ",")); err != nil {
		return "", err
	}
	return s, nil
}

func currency(s string) (string, error) {
	up := strings.ToUpper(strings.TrimSpace(s))
	if len(up) != 3 || strings.Trim(up, "ABCDEFGHIJKLMNOPQRSTUVWXYZ") != "" {
		return "", fmt.Errorf("%s is no currency, expected three letters such as USD", s)
	}
	return up, nil
}

// Usual answers every question that has no answer yet as an owner would who
// presses Enter.
func Usual(a Answers) Answers {
	out := Answers{}
	for _, q := range Questions() {
		out[q.Key] = a[q.Key]
		if out[q.Key] == "" {
			out[q.Key] = q.Usual(out)
		}
	}
	return out
}
