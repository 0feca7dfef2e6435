// Package oil counts what driving takes from a fill of engine oil, and reads
// what a laboratory finds in it.
//
// All driving is turned into equivalent miles: the highway miles, on oil at
// 100 deg C or below, that would age the fill as much. They are kept in
// meters. Ageing by heat alone is counted; fuel, water and dust show in a
// report on a sample, which Judge reads against limits and straight lines.
//
// Viscosities are mm2/s, base and acid numbers mg KOH/g, elements ppm, shares
// 0-1, as reports have them. A single report is one bottle: laboratories
// differ by a tenth on most figures (from memory), and none sees particles
// larger than some 5 micrometers (from memory), such as a failing bearing sheds.
package oil
