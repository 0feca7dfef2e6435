package newcar

import (
	"fmt"
	"strings"
	"testing/fstest"
	"time"

	"example.com/tripwear/profiles/quantity"
)

// Files is the smallest folder that plans: the car, its parts, a circuit and a trip.
func Files(a Answers, today time.Time) fstest.MapFS {
	a = Usual(a)
	k := kindOf(a["kind"])
	out := fstest.MapFS{}
	for name, text := range map[string]string{"car.yaml": car(a, k), "parts.yaml": parts(a, k), "circuits/my-circuit.yaml": myCircuit, "trips/weekend.yaml": weekend(today)} {
		out[name] = &fstest.MapFile{Data: []byte(text)}
	}
	return out
}

func car(a Answers, k Kind) string {
	var b strings.Builder
	fmt.Fprintf(&b, `# What you answered. tripwear help formats has all the keys; the demo explains
# them: tripwear new demo --demo.
name: %s
odometer: %s
mass: %s
drive: %s
power: %s

# Taken from the kind of car: %s. What you measure or read in
# the papers, put here, and take its word out of the list.
assumed: [front_weight, wheelbase, track, cg_height, drag_area, roll_front, alignment, rotors]
front_weight: %s
wheelbase: %s
track: {front: %s, rear: %s}
cg_height: %s
drag_area: %s
roll_front: %s
alignment:
  LF: {camber: -1.2 deg, toe: 0.05 deg}
  RF: {camber: -1.2 deg, toe: 0.05 deg}
  LR: {camber: -1.5 deg, toe: 0.1 deg}
  RR: {camber: -1.5 deg, toe: 0.1 deg}
fuel: {tank: %s, road: %s}
boot: {volume: %s, payload: %s}
luggage: {volume: 60 L, mass: 30 kg}
oil_use: 0.2
# usual: 600 mi/month   driven beside trips; a season counts it between them
costs: {currency: %s}

# What is on the car. A reading is worth more than anything else here:
# tread: {LF: [6/32 in, 6/32 in, 5.5/32 in]}, pad: {LF: 7 mm, RF: 6.8 mm}
fitted:
`, a["name"], a["odometer"], a["mass"], a["drive"], a["power"], k.Words,
		k.FrontWeight, k.Wheelbase, k.Track[0], k.Track[1], k.CGHeight, k.DragArea, k.RollFront, k.Tank, k.Road, k.Boot[0], k.Boot[1], a["currency"])
	worn, seen := since(a)
	for _, f := range [][2]string{
		{"tires-front", "LF, RF"}, {"tires-rear", "LR, RR"}, {"pads-front", "LF, RF"}, {"pads-rear", "LR, RR"},
		{"rotors-front", "LF, RF"}, {"rotors-rear", "LR, RR"}, {"hub-front", "LF, RF"}, {"hub-rear", "LR, RR"},
		{"oil", "engine"}, {"fluid", "system"},
	} {
		on, days := worn, seen
		if strings.HasPrefix(f[0], "hub") || f[1] == "engine" || f[1] == "system" {
			on, days = "unknown", ""
		}
		if f[0] == "fluid" {
			days = ", grade: unknown"
		}
		fmt.Fprintf(&b, "  - {part: %s, at: [%s], since: {date: unknown, odometer: %s}%s}\n", f[0], f[1], on, days)
	}
	return b.String()
}

// since is the odometer at which tires and brakes went on, and their circuit days
// as a further key.
func since(a Answers) (odometer, seen string) {
	m := aged.FindStringSubmatch(a["age"])
	if a["age"] == "?" || m == nil {
		return "unknown", ""
	}
	now, _ := quantity.Parse[quantity.Length](a["odometer"])
	on, _ := quantity.Parse[quantity.Length](strings.TrimSuffix(m[1], ","))
	if m[2] != "" {
		seen = ", circuit_days: " + m[2]
	}
	mile := quantity.Distance[quantity.US]
	return fmt.Sprintf("%.0f mi", mile.Of(max(0, float64(now-on)))), seen
}

// class is the stock tire nearest to a treadwear grade.
func class(grade string) string {
	var g float64
	if n, _ := fmt.Sscanf(grade, "%f", &g); n < 1 {
		g = 300
	}
	return fmt.Sprintf("tire-%d", 100*min(5, max(1, int(g/100+0.5))))
}

func parts(a Answers, k Kind) string {
	var b strings.Builder
	b.WriteString("# The parts you would buy. Prices, volumes, weights and delivery may stay unknown:\n# the plan says what knowing them is worth.\nparts:\n")
	counter := func(id, class, name, more string) { // sold over any counter
		fmt.Fprintf(&b, "  - {id: %s, class: %s, name: %s, price: unknown, volume: unknown, weight: unknown%s}\n", id, class, name, more)
	}
	part := func(id, class, name, more string) { counter(id, class, name, ", lead_time: unknown"+more) }
	tread := ""
	if a["treadwear"] != "?" {
		tread = ", treadwear: " + a["treadwear"]
	}
	for _, axle := range []string{"front", "rear"} {
		part("tires-"+axle, class(a["treadwear"]), a[axle]+" tires", ", size: "+a[axle]+tread+", fit: [shop, home], hours: 1.5 h")
	}
	for i, axle := range []string{"front", "rear"} {
		part("pads-"+axle, "pads-"+a["pads"]+"-"+axle, a["pads"]+" pads", "")
		part("rotors-"+axle, "rotors-plain-"+axle, "plain rotors", fmt.Sprintf(", diameter: %s, new_thickness: %s, discard: %s", k.Rotor[i], k.Thick[i], worn(k.Thick[i])))
	}
	part("hub-front", "hub-bearing", "front hub", "")
	part("hub-rear", "hub-bearing", "rear hub", "")
	counter("oil", "oil-5w-40", "5W-40 oil and filter", ", quantity: "+k.Oil+", interval: 4000 mi, ceiling: 6000 mi, months: 12")
	counter("fluid", "fluid-racing", "racing brake fluid", "") // what any first circuit day wants; what is in is another thing
	return b.String()
}

// worn is the least thickness of a rotor that is so thick when new, as most have
// it stamped. Common practice, no source.
func worn(thick string) string {
	var mm float64
	fmt.Sscanf(thick, "%f", &mm)
	return fmt.Sprintf("%.1f mm", mm-1.6)
}

const myCircuit = `# A circuit by what a map tells; your lap time, heavy brakings or a recorded track
# (tripwear help circuits) narrow its figures.
name: My circuit
length: 3.8 km
left_share: 40 %
`

// notice is how many days ahead the first trip leaves.
const notice = 21

func weekend(today time.Time) string {
	return fmt.Sprintf(`# Put your own miles, days and circuits here, or plan without a file:
# tripwear plan --road 300mi --circuit "3.6 km, 70 %% left" --days 2 --road 300mi
trip: First weekend
depart: %s
legs:
  - {road: Home to the circuit, distance: 300 mi}
  - {circuit: my-circuit, days: 1, sessions: 4 x 20 min, pace: novice} # or intermediate, advanced, expert
  - {road: The circuit to home, distance: 300 mi}
`, today.AddDate(0, 0, notice).Format(time.DateOnly))
}
