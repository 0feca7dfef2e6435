package plan

import (
	"testing"

	"example.com/tripwear/planner/kind"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// TestQuantity: what one buys, in the owner's units.
func TestQuantity(t *testing.T) {
	oil := profiles.OilPart{Quantity: 4.8 * 0.946352946e-3}
	for _, c := range []struct {
		part       profiles.Part
		us, metric string
	}{
		{profiles.Part{Kind: profiles.Tire}, "1 pair, mounted and balanced, new valves", ""},
		{profiles.Part{Kind: profiles.Pads}, "1 axle set", ""},
		{profiles.Part{Kind: profiles.Rotors}, "1 pair", ""},
		{profiles.Part{Kind: profiles.Bearing}, "1 hub, its nut where the maker wants a new one", ""},
		{profiles.Part{Kind: profiles.Oil, Oil: &oil}, "4.8 qt, filter and drain washer", "4.5 L, filter and drain washer"},
		{profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: 0.5e-3}}, "1 bottle of 0.5 qt", "1 bottle of 0.5 L"},
		{profiles.Part{Kind: profiles.Fluid, Fluid: &profiles.FluidPart{Quantity: 0.8e-3}}, "2 bottles of 0.5 qt", "2 bottles of 0.5 L"},
	} {
		buy := kind.Of(c.part.Kind).Buy(c.part)
		it := Item{Count: buy.Count, As: buy.As, Fluid: buy.Fluid, With: buy.With}
		if c.metric == "" {
			c.metric = c.us
		}
		if us, metric := it.Quantity(quantity.US), it.Quantity(quantity.Metric); us != c.us || metric != c.metric {
			t.Errorf("%s: %q and %q, want %q and %q", c.part.Kind, us, metric, c.us, c.metric)
		}
	}
}
