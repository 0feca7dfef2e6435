// Package answer says what a plan comes to on one screen: it picks and orders
// what the plan has decided, and works out nothing of its own.
package answer
