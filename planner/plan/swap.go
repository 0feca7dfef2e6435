package plan

// Swap is a used set that goes on in place of another one before a leg.
type Swap struct {
	Leg     int      `json:"leg"`
	Set     string   `json:"set"`  // id of the one on the car at departure
	Name    string   `json:"name"` // of both, such as front pads
	Off     string   `json:"off"`  // id of the part that comes off
	On      string   `json:"on"`   // of the part that goes on
	OnName  string   `json:"on_name"`
	Seconds float64  `json:"seconds"`
	Tools   []string `json:"tools"`
}
