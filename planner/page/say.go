package page

import (
	"fmt"
	"math"
	"strings"
	"time"

	"example.com/tripwear/profiles/quantity"
)

// Estimate is the caution under every answer.
const Estimate = "This is a planning estimate: inspect before every session, whatever it says."

// Money is an amount in whole units of a currency: $2,965, 2,965 EUR.
func Money(x float64, currency string) string {
	amount := Thousands(math.Abs(x))
	if math.Round(x) < 0 {
		amount = "-" + amount
	}
	if currency == "USD" {
		return "$" + amount
	}
	return strings.TrimSpace(amount + " " + currency)
}

// Thousands is a whole number with a comma every three digits.
func Thousands(x float64) string {
	digits := fmt.Sprintf("%.0f", x)
	for i := len(digits) - 3; i > 0; i -= 3 {
		digits = digits[:i] + "," + digits[i:]
	}
	return digits
}

// Day is a day as owners write it: Sat May 15, or Sat 15 May.
func (v View) Day(t time.Time) string {
	if v.Units == quantity.US {
		return t.Format("Mon Jan 2")
	}
	return t.Format("Mon 2 Jan")
}

// Miles is a distance with a comma in thousands.
func (v View) Miles(m float64) string {
	d := quantity.Distance[v.Units]
	return Thousands(d.Of(m)) + " " + d.Name
}

// First is a sentence's beginning in a capital letter.
func First(s string) string {
	if s == "" {
		return ""
	}
	return strings.ToUpper(s[:1]) + s[1:]
}
