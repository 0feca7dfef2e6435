//go:build race

package learning

const usualOwners = 60
