// Package workbook writes a plan as an .xlsx workbook to take along and to
// fill in on the way.
//
// Every sheet prints one page wide on A4 and on Letter and is readable in
// black and white: a status is always a word, never just a color. The same
// plan gives the same bytes. Each figure is rounded to what the model can
// honestly say and its unit stands in the header.
package workbook
