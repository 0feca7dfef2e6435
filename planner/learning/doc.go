// Package learning weighs the logbook's evidence: the history of readings and
// replacements, the posterior of the rates, how well past readings were
// forecast, and what to measure next.
package learning
