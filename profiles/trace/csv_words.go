package trace

import (
	"regexp"
	"strings"
)

// kind is what a column of a CSV holds.
type kind int

const (
	timeColumn kind = iota
	dateColumn
	latColumn
	lonColumn
	northSouth // the letter of lat, in a column of its own
	eastWest
	speedColumn
	heightColumn
	xColumn
	yColumn
	rightColumn
	leftColumn
	widthColumn // from edge to edge
	kinds
)

// columnWords are each kind's name in messages, and the words that headers use
// for it, in English, German, French, Spanish, Italian and Japanese; accents
// folded, "gps" before them left out.
var columnWords = [kinds]struct {
	name  string
	words string
	units map[string]float64 // in SI; factors: NIST SP 811, appendix B
	like  string             // completes "expected ..." where the unit is none of them
}{
	timeColumn: {"time", "time, timestamp, utc, utc time, time utc, seconds, elapsed, elapsed time, local time, time of day, date time, datetime, date and time," +
		" zeit, uhrzeit, laufzeit, zeitstempel, datum uhrzeit, temps, heure, horodatage, tiempo, hora, marca de tiempo, tempo, ora, orario, jikan, jikoku, 時間, 時刻",
		map[string]float64{"s": 1, "sec": 1, "secs": 1, "seconds": 1, "sek": 1, "ms": 1e-3, "us": 1e-6}, "s or ms"},
	dateColumn: {"date", "date, day, utc date, datum, tag, jour, fecha, dia, data, giorno, hizuke, 日付", nil, ""},
	latColumn:  {"lat", "lat, latitude, breite, breitengrad, geographische breite, latitud, latitudine, ido, 緯度", degreeUnits, "deg"},
	lonColumn:  {"lon", "lon, lng, long, longitude, lange, laenge, langengrad, laengengrad, geographische lange, longitud, longitudine, keido, 経度", degreeUnits, "deg"},
	northSouth: {"N/S", "n/s, ns, lat dir, lat hemisphere, latitude hemisphere, latitude direction", nil, ""},
	eastWest:   {"E/W", "e/w, ew, lon dir, long dir, lon hemisphere, longitude hemisphere, longitude direction", nil, ""},
	speedColumn: {"speed", "speed, velocity, ground speed, speed over ground, sog, geschwindigkeit, vitesse, velocidad, velocita, sokudo, 速度",
		map[string]float64{"m/s": 1, "mps": 1, "km/h": 1 / 3.6, "kph": 1 / 3.6, "kmh": 1 / 3.6, "mph": 1609.344 / 3600, "kn": knot, "kt": knot, "kts": knot, "knot": knot, "knots": knot, "kmph": 1 / 3.6, "km/hr": 1 / 3.6, "m/sec": 1, "mi/h": 1609.344 / 3600}, "m/s, km/h, mph or kn"},
	heightColumn: {"ele", "ele, elevation, alt, altitude, height, hohe, hoehe, hauteur, altura, altitud, altezza, altitudine, quota, kodo, 高度", lengthUnits, "m or ft"},
	xColumn:      {"x", "x, easting", lengthUnits, "m or ft"},
	yColumn:      {"y", "y, northing", lengthUnits, "m or ft"},
	rightColumn:  {"right", "right, w right, w tr right, width right, right width, track width right", lengthUnits, "m or ft"},
	leftColumn:   {"left", "left, w left, w tr left, width left, left width, track width left", lengthUnits, "m or ft"},
	widthColumn:  {"width", "width, w, track width, streckenbreite, fahrbahnbreite, largeur, ancho, anchura, larghezza", lengthUnits, "m or ft"},
}

var (
	degreeUnits = map[string]float64{"deg": 1, "°": 1, "degree": 1, "degrees": 1, "grad": 1, "wgs84": 1, "dd": 1, "°n": 1, "°e": 1, "deg n": 1, "deg e": 1, "decimal degrees": 1, "deg min": 1, "dm": 1, "dms": 1, "min": 1. / 60, "arcmin": 1. / 60}
	lengthUnits = map[string]float64{"m": 1, "meter": 1, "meters": 1, "metres": 1, "ft": 0.3048, "feet": 0.3048}
)

func (k kind) String() string { return columnWords[k].name }

// words is the kind of column that each word names.
var words = func() map[string]kind {
	out := map[string]kind{}
	for k := range kinds {
		for word := range strings.SplitSeq(columnWords[k].words, ",") {
			out[strings.TrimSpace(word)] = k
		}
	}
	return out
}()

var (
	bracketed = regexp.MustCompile(`[(\[{<]([^)\]}>]*)[)\]}>]?`)
	noMeasure = regexp.MustCompile(`^(gps|gnss|utc|gmt|local|iso.*|.*:.*|)$`) // in a unit's place
	accents   = strings.NewReplacer("ä", "a", "á", "a", "à", "a", "é", "e", "è", "e", "í", "i", "ö", "o", "ó", "o", "ō", "o", "ü", "u", "ú", "u", "_", " ", "μ", "u", "µ", "u")
)

// heading reads the cell of a header: what its column holds, and the unit as
// written, "" where it has none; ok is false where no word is known.
func heading(cell string) (k kind, unit string, ok bool) {
	text, inside := plain(cell), bracketed.FindAllStringSubmatch(plain(cell), -1)
	if at := strings.IndexAny(text, "([{<"); at >= 0 {
		text = strings.TrimSpace(text[:at])
	}
	for _, m := range inside {
		if said := strings.TrimSpace(m[1]); unit == "" && !noMeasure.MatchString(said) {
			unit = said
		}
	}
	for _, name := range []string{text, strings.TrimPrefix(strings.TrimPrefix(text, "gps "), "gnss ")} {
		if k, ok = words[name]; ok {
			return k, unit, true
		}
		for _, mark := range []string{" ", "/"} { // "speed km/h" as well as "speed / km/h"
			before, after, cut := cutUnit(name, mark)
			if k, ok = words[before]; cut && ok {
				if _, known := columnWords[k].units[after]; known {
					return k, after, true
				}
			}
		}
	}
	return 0, "", false
}

// cutUnit cuts the unit from the end of a heading.
func cutUnit(name, mark string) (before, after string, ok bool) {
	if mark == " " {
		if at := strings.LastIndex(name, mark); at >= 0 {
			return strings.TrimRight(name[:at], " /"), name[at+1:], true
		}
		return "", "", false
	}
	before, after, ok = strings.Cut(name, mark)
	return strings.TrimSpace(before), strings.TrimSpace(after), ok
}

// plain folds what headers differ in: case, accents, underscores, blanks.
func plain(cell string) string {
	return strings.Join(strings.Fields(accents.Replace(strings.ToLower(strings.Trim(strings.TrimSpace(cell), `"'`)))), " ")
}

// unitOf is a unit as a cell of its own has it.
func unitOf(cell string) string { return strings.Trim(plain(cell), "()[]{}<> ") }
