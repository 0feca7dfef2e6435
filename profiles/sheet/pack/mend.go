package pack

import (
	"bytes"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"example.com/tripwear/profiles/sheet"
)

// What the library writes and strict readers refuse is put right here, part by
// part: ECMA-376-1 and -2 say what may stand there.
func mend(name string, part []byte) []byte {
	switch {
	case strings.HasPrefix(name, "xl/worksheets/sheet"):
		return dimensioned(usual(part))
	case strings.HasPrefix(name, "xl/charts/chart"):
		return valueAxis.ReplaceAllFunc(part, func(axis []byte) []byte { return ofCategories.ReplaceAll(axis, nil) })
	case name == "docProps/core.xml":
		return prefixed(part)
	}
	return part
}

// usual has relations under the prefix that readers look for, which is no
// matter of the standard's.
func usual(part []byte) []byte {
	part = bytes.ReplaceAll(part, []byte(" xmlns:relationships="), []byte(" xmlns:r="))
	return bytes.ReplaceAll(part, []byte(" relationships:id="), []byte(" r:id="))
}

// A value axis has none of a category axis's elements (ECMA-376-1, 21.2.2.226).
var (
	valueAxis    = regexp.MustCompile(`(?s)<valAx>.*?</valAx>`)
	ofCategories = regexp.MustCompile(`<(auto|lblAlgn|lblOffset|noMultiLvlLbl) val="[^"]*"(/>|></[a-zA-Z]+>)`)
)

// core are the names of the package's own among the core properties
// (ECMA-376-2, 11.1), which readers look for under their prefix.
var core = regexp.MustCompile(`<(/?)(coreProperties|category|contentStatus|keywords|lastModifiedBy|revision|version)\b`)

func prefixed(part []byte) []byte {
	part = core.ReplaceAll(part, []byte("<${1}cp:$2"))
	return bytes.Replace(part, []byte(` xmlns="http://schemas.openxmlformats.org/package/`), []byte(` xmlns:cp="http://schemas.openxmlformats.org/package/`), 1)
}

var noDimension = regexp.MustCompile(`<dimension ref="A1(:A1)?"\s*(/>|></dimension>)`)

// dimensioned has a sheet say where its cells end: the library says A1 of a
// sheet that it streams.
func dimensioned(part []byte) []byte {
	tag := noDimension.FindIndex(part)
	if tag == nil {
		return part
	}
	const cell = `<c r="`
	column, row := 1, 1
	for rest := part; ; {
		at := bytes.Index(rest, []byte(cell))
		if at < 0 {
			break
		}
		rest = rest[at+len(cell):]
		n := 0
		for n < len(rest) && rest[n] >= 'A' && rest[n] <= 'Z' {
			n++
		}
		column = max(column, sheet.Column(string(rest[:n])))
		m := n
		for m < len(rest) && rest[m] >= '0' && rest[m] <= '9' {
			m++
		}
		last, _ := strconv.Atoi(string(rest[n:m])) // digits
		row = max(row, last)
	}
	ref := "A1"
	if column > 1 || row > 1 {
		ref = fmt.Sprintf("A1:%s%d", sheet.Letters(column), row)
	}
	return append(append(bytes.Clone(part[:tag[0]]), fmt.Sprintf(`<dimension ref="%s"/>`, ref)...), part[tag[1]:]...)
}
