// Package decision lists what can be done about every set, prices it, chooses
// the cheapest safe combination that fits the trunk, and says why.
package decision
