// Package remedy finds the smallest change that makes a plan safe, and what the
// owner has in the garage that would do: each by planning the trip anew.
package remedy
