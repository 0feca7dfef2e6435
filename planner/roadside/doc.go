// Package roadside prints what is read in a paddock, on a phone or a laptop: plain
// text, nothing that color alone says.
package roadside
