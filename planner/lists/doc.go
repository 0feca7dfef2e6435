// Package lists writes what follows from the decisions: what to buy and pack,
// what to check, what it costs, and what to look out for.
package lists
