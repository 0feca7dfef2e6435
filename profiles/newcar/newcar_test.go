package newcar_test

import (
	"strings"
	"testing"
	"time"

	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/newcar"
)

// TestEveryKindLoads: the folder of every kind of car is accepted as it comes, and
// its car.yaml is short; so is that of an owner who knows what he is asked.
func TestEveryKindLoads(t *testing.T) {
	today := time.Date(2027, 5, 1, 0, 0, 0, 0, time.UTC)
	for _, k := range newcar.Kinds() {
		for _, a := range []newcar.Answers{{"kind": k.ID}, {"kind": k.ID, "treadwear": "?", "age": "9000 mi, 3 days", "pads": "track", "front": "P205/50 ZR16", "currency": "EUR"}} {
			files := newcar.Files(a, today)
			if _, err := profiles.Load(files); err != nil {
				t.Errorf("%s: %v\n%s", k.ID, err, files["car.yaml"].Data)
			}
			if n := strings.Count(string(files["car.yaml"].Data), "\n"); n >= 60 {
				t.Errorf("%s: car.yaml has %d lines", k.ID, n)
			}
		}
	}
}

// TestAnswers: each usual answer is taken, and what is wrong is refused with what
// is expected.
func TestAnswers(t *testing.T) {
	a := newcar.Usual(nil)
	if n := len(newcar.Questions()); n > 12 {
		t.Errorf("%d questions", n)
	}
	wrong := map[string][]string{
		"name": {"a: b", strings.Repeat("x", 61)}, "kind": {"boat"}, "power": {"172", "hp", "172 lb"}, "mass": {"heavy"}, "drive": {"left"}, "odometer": {"1000"},
		"front": {"16", "205/50"}, "rear": {"x"}, "treadwear": {"5", "soft"}, "pads": {"green"}, "age": {"-1", "many", "9000", "9000 mi and more"}, "currency": {"$", "dollars"},
	}
	for _, q := range newcar.Questions() {
		if got, err := q.Check(a[q.Key]); err != nil || got != a[q.Key] {
			t.Errorf("%s: usual %q: %q, %v", q.Key, a[q.Key], got, err)
		}
		if len(wrong[q.Key]) == 0 {
			t.Errorf("no wrong answer to %s is tried", q.Key)
		}
		for _, s := range wrong[q.Key] {
			if got, err := q.Check(s); err == nil {
				t.Errorf("%s takes %q as %q", q.Key, s, got)
			}
		}
	}
}
