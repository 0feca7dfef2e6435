package quantity

import (
	"fmt"
	"regexp"

	"example.com/tripwear/profiles/nearest"
)

// System is the family of units that results are shown in.
type System int

// The two systems.
const (
	US System = iota
	Metric
)

// ParseSystem reads "us" or "metric".
func ParseSystem(s string) (System, error) {
	switch s {
	case "us":
		return US, nil
	case "metric":
		return Metric, nil
	}
	return US, &Error{fmt.Sprintf("unknown units %q", short(s)) + nearest.Meant(s, []string{"us", "metric"}), "us or metric"}
}

// Words turns a sentence into the system's own words: where a car is measured
// in kilometers, its trunk is a boot.
func (s System) Words(sentence string) string {
	if s == Metric {
		return trunk.ReplaceAllString(sentence, "boot")
	}
	return sentence
}

var trunk = regexp.MustCompile(`\btrunk\b`)

// String is the word that ParseSystem reads.
func (s System) String() string {
	if s == Metric {
		return "metric"
	}
	return "us"
}
