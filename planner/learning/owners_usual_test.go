//go:build !race

package learning

const usualOwners = 160
