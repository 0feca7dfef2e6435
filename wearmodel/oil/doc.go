// Package oil counts what driving takes from a fill of engine oil.
//
// All driving is turned into equivalent miles: the highway miles, on oil at
// 100 deg C or below, that would age the fill as much. They are kept in
// metres. Ageing by heat alone is counted; fuel, water and dust show in a used-
// oil report.
package oil
