// Package card sets a plan as one card: a page of HTML that needs nothing else,
// for a phone and for one sheet of paper, and its day in text. It works out
// nothing of its own: figures are the plan's as decided.
package card
