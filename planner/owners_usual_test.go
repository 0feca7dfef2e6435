//go:build !race

package planner

const usualOwners = 160
