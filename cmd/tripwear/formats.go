package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/profiles"
)

const formats = `A car folder holds:

  car.yaml         the car as it stands, what is fitted and what was measured
  parts.yaml       the parts you buy; class names the stock part it starts from
  circuits/ID.yaml a circuit, by its summary, corner by corner, or by a recorded
                   track: gpx: traces/heron.gpx, or csv: with a table of fixes
  trips/ID.yaml    a trip: legs that are a road, a circuit or a stop
  model.yaml       optional: numbers of the wear model that you know better
  logbook.csv      optional: what was measured and done, one row each
  oil/ID.yaml .csv optional: a report on used oil; a table has the columns key
                   and value, with keys such as used.iron and fill.distance

Every measure carries its unit, US and metric alike:

  length       mi km m cm mm in ft, 6/32 in      mass      kg lb g t
  volume       L mL qt gal "cu ft"               area      m2 cm2 mm2 in2 ft2
  duration     s min h day, 1:51, 1:51.4         speed     mph km/h m/s
  power        hp kW PS W                        pressure  psi bar kPa
  temperature  F C K                             angle     deg min rad
  share        %                                 economy   mpg L/100km km/L
  force        kN N lbf                          fuel      3.90 /gal, 1.75 /L
  turns        90 deg left                       sessions  5 x 20 min
  viscosity    mm2/s cSt                         traces    ppm mg/kg
  base and acid number  mg KOH/g                 bounds    <2 % in a report

A table of fixes has a header with units, such as time (s), lat, lon, and
speed (km/h) and ele (m) where it has them; times may be dates or clock times.

What an eye or a hand found, by place under fitted or as a row of the logbook:

  rotor face   smooth checks catches edge      hub   tight play rough moved
  pad wear     even taper indicator plate      tire  sound cut cords
  fluid colour clear amber dark                pedal firm long soft

Toe is an angle, or a difference with the diameter it was measured at; of one
wheel, {toe: 1 mm, toe_diameter: 16 in}, or of an axle's two together, front:
{toe_total: 1/16 in, toe_diameter: 24 in}.

Dates are YYYY-MM-DD; decimals take a point. Camber is negative where the top
leans in, toe positive where the fronts of the wheels point in. Places are LF,
RF, LR, RR, "engine" for oil and "system" for brake fluid. left_share is the
share of cornering load taken in left turns, which load the right-hand wheels.

An unknown key, a missing unit or a value out of range is an error with its
file, line and column. "tripwear check" reports all of a folder at once, and
"tripwear new DIR" writes a folder whose files explain themselves.
`

// newFormatsTopic is a help topic: tripwear help formats.
func newFormatsTopic() *cobra.Command {
	return &cobra.Command{Use: "formats", Short: "The files of a car folder and the units they take", Long: formats + allKeys()}
}

// allKeys lists the keys that the readers accept, in 80 columns.
func allKeys() string {
	const side, width = 21, 80
	var b strings.Builder
	b.WriteString("\nAll keys, * where there must be one; inner ones dotted, ANY is a word such as\nadvanced or city:\n\n")
	for _, k := range profiles.FileKeys() {
		line := fmt.Sprintf("  %-*s", side-2, k.Of)
		for _, name := range k.Names {
			if len(line)+1+len(name) > width {
				b.WriteString(line + "\n")
				line = strings.Repeat(" ", side)
			}
			line += " " + name
		}
		b.WriteString(line + "\n")
	}
	return b.String()
}
