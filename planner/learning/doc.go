// Package learning weighs the logbook's evidence: the history of readings and
// replacements, the posterior of the rates, what other cars tell, and how well
// past readings were forecast.
package learning
