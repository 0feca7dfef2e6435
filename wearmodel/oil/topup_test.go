package oil

import (
	"testing"
)

// A quart per 2,000 miles, over 1,000 miles of road and 1,000 equivalent miles
// on circuit at three times the thirst: two quarts. The owner's arithmetic.
func TestTopUp(t *testing.T) {
	const quart = 0.946352946e-3 // m3, exact
	near(t, "quarts", TopUp(quart/(2000*mile), 1000*mile, 1000*mile)/quart, 2, 1e-9)
	near(t, "nothing driven", TopUp(quart/mile, 0, 0), 0, 0)
}
