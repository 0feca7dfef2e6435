// Package logbook keeps the owner's logbook.csv: dated rows of what was
// measured, renewed, found and driven. Reading is tolerant of what
// spreadsheets do to a file; adding never loses a row that was acknowledged.
//
// The package knows the form of a row and nothing of the car: whether a row
// fits the car's history is for package profiles.
package logbook
