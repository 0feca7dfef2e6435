// Package worth says what it is worth, in money, to know what is not known before
// a trip: the expected saving of an answer over the plan that is made without it.
package worth
