package terminal

import "time"

// Given reads what a flag was given, if it was.
func Given[T any](into *T, flag, text, expected string, read func(string) (T, error)) error {
	if text == "" {
		return nil
	}
	v, err := read(text)
	if err != nil {
		return Misuse("--"+flag+" "+Quoted(text)+" is not taken, expected "+expected, "")
	}
	*into = v
	return nil
}

// Day reads a day as it is written everywhere.
func Day(text string) (time.Time, error) { return time.Parse(time.DateOnly, text) }
