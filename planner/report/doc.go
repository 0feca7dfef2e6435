// Package report prints a plan for a terminal of 80 columns, and as JSON.
//
// The answer comes first: what to do before leaving, what to carry, what to
// do on the way; then which corner suffers, a table for each group of parts,
// and what the figures lean on. No colour carries meaning.
package report
