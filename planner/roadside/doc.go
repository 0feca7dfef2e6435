// Package roadside prints what is read on a phone in a paddock: lines of at
// most 42 columns, plain text, nothing that color alone says.
package roadside
