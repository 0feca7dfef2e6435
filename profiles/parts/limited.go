package parts

import (
	"fmt"
	"slices"
	"time"

	"go.yaml.in/yaml/v4"

	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/quantity"
)

// LimitedPart holds the limits of a part without physics of its own: what was
// used of each is counted.
type LimitedPart struct {
	Limits   Limits
	Margin   quantity.Share  `need:"yes" range:"50 % to 100 %" doc:"of a limit: the owner's earlier end"`
	Spread   quantity.Number `range:"0 to 1" doc:"of the limits, sd of ln; 0: they stand as a count"`
	Critical bool            `doc:"past a limit it can hurt someone"`
	Check    string          `doc:"what to look at, and where"`
	Stranded quantity.Money  `range:"0 to 1000000" doc:"what its failure costs, where that is more than the car's figure"`
}

// Limits are what a limited part may do; 0 where it is not limited so.
type Limits struct {
	Distance     quantity.Length   `range:"100 mi to 1000000 mi" doc:"on the odometer"`
	CircuitHours quantity.Duration `range:"0.5 h to 10000 h" doc:"on circuit"`
	CircuitDays  quantity.Number   `range:"1 to 1000" doc:"on circuit"`
	HeatCycles   quantity.Number   `range:"1 to 10000" doc:"a session is one"`
	Months       quantity.Number   `range:"1 to 600" doc:"since it went on"`
	Expires      time.Time         `doc:"the last day on which a circuit takes it"`
}

// Limited is what the data say of a kind of limited parts.
type Limited struct {
	As, With  string // what one buys, and what along with it
	LaborWith Kind   // see the kinds of planner; "" where none
	WheelsOff bool
	Any       bool // a part of the owner's own, anywhere: its name is what it is

	Watch, Circuit, Forbids []logbook.Finding // what may be found on it: to be watched, forbids circuits, forbids to drive

	common, parts *yaml.Node // of its stock
}

const limitedFile = "stock/limited.yaml"

// limitedKinds are the rows of the kinds that are data alone. A fault in the
// file is one of this package.
func limitedKinds() []KindInfo {
	data, err := stockFiles.ReadFile(limitedFile)
	if err != nil {
		panic(err)
	}
	out, err := LimitedKinds(data)
	if err != nil {
		panic(fmt.Errorf("%s: %w", limitedFile, err))
	}
	return out
}

// LimitedKinds are the kinds that a stock file of limited parts has. Their looks
// become rows of the logbook.
func LimitedKinds(data []byte) ([]KindInfo, error) {
	var file struct {
		Common yaml.Node
		Kinds  []struct {
			Kind, ID, Plural, At string
			Buy, With            string
			LaborWith            string `yaml:"labor_with"`
			WheelsOff            bool   `yaml:"wheels_off"`
			Finds                struct{ Watch, Circuit, Forbids []logbook.Finding }
			Parts                yaml.Node
		}
	}
	if err := yaml.Unmarshal(data, &file); err != nil {
		return nil, err
	}
	var out []KindInfo
	for _, row := range file.Kinds {
		finds := slices.Concat(row.Finds.Watch, row.Finds.Circuit, row.Finds.Forbids)
		k := KindInfo{
			Kind: Kind(row.Kind), Plural: row.Plural, Dated: true,
			Limited: &Limited{
				As: row.Buy, With: row.With, LaborWith: Kind(row.LaborWith), WheelsOff: row.WheelsOff, Any: row.At == "any",
				Watch: row.Finds.Watch, Circuit: row.Finds.Circuit, Forbids: row.Finds.Forbids,
				common: &file.Common, parts: &row.Parts,
			},
			block: func(p *Part) any { return &p.Limited },
			lacks: func(p *Part) []string {
				if p.Limited.Limits == (Limits{}) && len(finds) == 0 {
					return []string{"limits"}
				}
				return nil
			},
		}
		switch row.At {
		case "axle":
			k.Sets = byAxle(k.Kind, row.ID, row.Plural)
		case "wheel":
			k.Sets = byWheel(k.Kind, row.ID, row.Kind)
		case "any":
			for _, at := range append(wheels[:4:4], logbook.Single...) {
				k.Sets = append(k.Sets, Set{row.ID + "-" + at, at + " " + row.Kind, k.Kind, []string{at}})
			}
		default:
			k.Sets = single(k.Kind, row.ID, row.Kind, row.At)
		}
		if len(finds) > 0 {
			what := logbook.What(row.Kind)
			k.Readings = []Reading{{Key: "found", What: what}}
			logbook.AddLook(what, k.Places(), slices.Insert(finds, 0, logbook.Sound)...)
		}
		k.Readings = append(k.Readings, Reading{Key: "built"}, Reading{Key: "bought"})
		out = append(out, k)
	}
	return out, nil
}
