// Package plan holds the results: what a plan, a comparison, a circuit and the
// rest say, with their units and ranges and the JSON names that are their
// contract. Measures are SI, temperatures degrees Celsius, shares 0-1, money in
// the owner's currency. Nothing is worked out here.
package plan
