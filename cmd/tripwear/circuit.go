package main

import (
	"io"
	"maps"
	"path/filepath"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/trace"
)

type circuitOptions struct {
	pace, lapTime, save, rank string
	reverse, wet, plain       bool
}

func newCircuitCommand(env environment) *cobra.Command {
	var o circuitOptions
	cmd := &cobra.Command{
		Use:   "circuit FILE.gpx|FILE.csv|NAME",
		Short: "A circuit's duty: turns, brakings, left share, and what it takes from this car",
		Long: `Describe what a circuit asks of the car and what it takes from the parts fitted:
length, direction, lap, left share, turns, heavy brakings, wheel loads, wear by
the lap and the hour, all against the stock reference lap.

NAME is a circuit of the car folder. FILE is a recorded track, from a phone, a
watch or a logger: GPX 1.1, or CSV with a header such as "time (s),lat,lon". It
needs a fix a second at least; the start line and the hot laps are found in it.
--save keeps it as a circuit of the car folder, so that it is needed once.

--rank SET or --rank PLACE (LF, RF, LR, RR) orders all circuits of the folder by
what an hour on each takes from that set or corner.`,
		Example: `  tripwear circuit heron-flats --demo
  tripwear circuit session.gpx --car ~/juniper --save heron-flats
  tripwear circuit --rank hub-LR`,
		Args: atMostOne("circuit"),
		RunE: env.reads(func(s *session, args []string) error { return runCircuit(s, o, strings.Join(args, "")) }),
	}
	flags := cmd.Flags()
	addDemo(cmd, "use the car of an embedded demo")
	flags.StringVar(&o.pace, "pace", "", "novice, intermediate, advanced, expert or a share of grip such as 80%; without it the lap time")
	flags.StringVar(&o.lapTime, "lap-time", "", "the lap to drive, such as 1:51; without it the circuit's own")
	flags.BoolVar(&o.reverse, "reverse", false, "the other way round")
	flags.BoolVar(&o.wet, "wet", false, "on a wet circuit: less grip, and no hot rubber")
	flags.StringVar(&o.save, "save", "", "keep it in the car folder as circuits/ID.yaml, corner by corner")
	flags.StringVar(&o.rank, "rank", "", "order the folder's circuits by what they take from a set or a corner of the car")
	flags.BoolVar(&o.plain, "plain", false, "draw with plain characters")
	return cmd
}

func runCircuit(s *session, o circuitOptions, what string) error {
	switch {
	case what == "" && o.rank == "":
		return terminal.Misuse("circuit needs a track or a name", "tripwear circuit session.gpx, tripwear circuit heron-flats, or tripwear circuit --rank hub-LR")
	case what != "" && o.rank != "":
		return terminal.Misuse("--rank takes no circuit beside it, and one is named", "leave the circuit out: --rank orders all circuits of the car folder")
	case o.pace != "" && o.lapTime != "":
		return terminal.Misuse("--pace and --lap-time exclude each other", "give one of them: a lap time is turned into a pace")
	case o.save != "" && (o.rank != "" || s.demo != ""):
		return terminal.Misuse("--save needs a circuit and a car folder", "tripwear circuit session.gpx --car my-car --save heron-flats")
	case o.save != "" && !circuitID.MatchString(o.save):
		return terminal.Misuse("--save "+terminal.Quoted(o.save)+" is not an id", "write letters, digits, dots and dashes, such as heron-flats")
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	drive, err := o.drive(folder)
	if err != nil {
		return err
	}
	if o.rank != "" {
		return runRank(s, folder, o.rank, drive)
	}
	file := what
	if trace.Is(what) {
		if what, err = s.addTrack(folder, what, o.save); err != nil {
			return err
		}
	}
	done := s.stage("circuit")
	circuit, err := planner.DescribeCircuit(folder, what, drive)
	done()
	switch {
	case err == nil:
	case o.lapTime != "":
		return terminal.AsMisuse("--lap-time: ", err, "give a lap time that lies between the two")
	case trace.Is(file):
		return terminal.AsMisuse(file+": ", err, "record at least one whole lap at speed, with a fix a second or more often")
	default:
		return terminal.AsMisuse("", err, cannotDrive)
	}
	if o.save != "" {
		if err := s.saveCircuit(circuit, o.save); err != nil {
			return err
		}
	}
	return show(s, circuit, func(out io.Writer, c *plan.Circuit, units quantity.System) error {
		return report.Circuit(out, c, report.CircuitOptions{Units: units, Plain: o.plain})
	})
}

var circuitID = regexp.MustCompile(`^[A-Za-z0-9][A-Za-z0-9._-]{0,63}$`)

// drive reads how the circuit is to be driven.
func (o circuitOptions) drive(f *profiles.Folder) (planner.Drive, error) {
	d := planner.Drive{Pace: o.pace, Reverse: o.reverse, Wet: o.wet}
	if o.pace != "" {
		if p := f.Model.Pace(o.pace); !(p >= 0.4 && p <= 1.05) {
			return d, terminal.Misuse("--pace "+terminal.Quoted(o.pace)+" is no pace", "write novice, intermediate, advanced, expert, or a share of grip from 40% to 105%")
		}
	}
	if o.lapTime != "" {
		lap, err := quantity.Parse[quantity.Duration](o.lapTime)
		if err != nil || !(lap >= 10 && lap <= 3600) {
			return d, terminal.Misuse("--lap-time "+terminal.Quoted(o.lapTime)+" is no lap time", "write minutes and seconds, such as 1:51.4")
		}
		d.LapTime = float64(lap)
	}
	return d, nil
}

// addTrack puts a recorded track into the folder as a circuit and gives its id.
func (s *session) addTrack(f *profiles.Folder, file, saveAs string) (id string, err error) {
	done := s.stage("track")
	track, notes, err := profiles.ReadRecording(s.open(filepath.Dir(file)), filepath.Base(file))
	done()
	if err != nil {
		return "", terminal.InFile(file, err, "name a recording in a format that is read; tripwear help formats lists them")
	}
	s.logRead(file, "fixes", len(track.Fixes))
	s.leftOut(notes)
	id = saveAs
	if id == "" {
		id = strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	}
	c := profiles.Circuit{ID: id, Name: title(id), Trace: track}
	f.Circuits = maps.Clone(f.Circuits)
	f.Circuits[id] = c
	return id, nil
}

// title is an id as a name: heron-flats is Heron Flats.
func title(id string) string {
	parts := strings.FieldsFunc(id, func(r rune) bool { return r == '-' || r == '_' || r == ' ' })
	for i, p := range parts {
		first, size := utf8.DecodeRuneInString(p)
		parts[i] = string(unicode.ToUpper(first)) + p[size:]
	}
	if len(parts) == 0 {
		return id
	}
	return strings.Join(parts, " ")
}

// saveCircuit writes a new circuit of the car folder, and never over an old one.
func (s *session) saveCircuit(c *plan.Circuit, id string) error {
	text, err := planner.CircuitFile(c)
	if err != nil {
		return terminal.Misuse("--save: "+err.Error(), "record a session there, or write its corners")
	}
	target := filepath.Join(s.Car, "circuits", id+".yaml")
	if err := durable.Create(target, []byte(text)); err != nil {
		return err
	}
	s.log.Info().Msg("wrote " + target)
	return nil
}

func runRank(s *session, f *profiles.Folder, what string, drive planner.Drive) error {
	done := s.stage("circuits")
	ranking, err := planner.RankCircuits(f, what, drive)
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	return show(s, ranking, report.Ranking)
}
