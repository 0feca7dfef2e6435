// Package report prints results for a terminal, and as JSON.
//
// A plan's answer comes first: what to replace before leaving, what to bring,
// what to do on the way; then which corner suffers, a table for each kind of
// part, and what the figures rest on. No color carries meaning.
package report
