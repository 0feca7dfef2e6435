// Package standing says where a trip under way stands: what was decided before
// leaving and what became of it, what the trunk holds, and what was read since
// beside what was expected.
package standing
