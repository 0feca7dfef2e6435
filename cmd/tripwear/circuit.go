package main

import (
	"bytes"
	"errors"
	"io"
	"maps"
	"path"
	"path/filepath"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner/circuits"
	"example.com/tripwear/planner/picture"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/logbook"
	"example.com/tripwear/profiles/nearest"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/store"
	"example.com/tripwear/profiles/trace"
)

type circuitOptions struct {
	pace, lapTime, save, rank string
	line, direction, output   string
	friction                  string
	reverse, wet, plain       bool
}

func newCircuitCommand(env environment) *cobra.Command {
	var o circuitOptions
	cmd := &cobra.Command{
		Use:   "circuit FILE...|NAME",
		Short: "A circuit's duty: turns, brakings, left share, and what it takes from this car",
		Long: `Describe what a circuit asks of the car and what it takes from the parts fitted:
length, direction, lap, left share, turns, heavy brakings, wheel loads, wear by
the lap and the hour, all against the stock reference lap.

NAME is a circuit of the car folder. FILE is a recorded track, from a phone, a
watch or a logger, or a map; "tripwear help formats" lists what is read. A
recording needs a fix a second at least; the start line and the hot laps are
found in it; several FILES are recordings of one circuit, fitted together. A map has lines without times, or x, y and widths: the car takes
the line of least curvature between the edges. --save keeps either as a circuit
of the car folder, so that it is needed once; a recording replaces a map.

--rank SET or --rank PLACE (LF, RF, LR, RR) orders all circuits of the folder by
what an hour on each takes from that set or corner.`,
		Example: `  tripwear circuit heron-flats --demo
  tripwear circuit session.gpx --car ~/juniper --save heron-flats
  tripwear circuit map.kml --line "full course" --direction clockwise
  tripwear circuit --rank hub-LR`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 && !slices.ContainsFunc(args, func(a string) bool { return !trace.Is(a) }) {
				return nil // several recordings
			}
			return atMostOne("circuit")(cmd, args)
		},
		RunE: env.reads(func(s *session, args []string) error { return runCircuit(s, o, args) }),
	}
	flags := cmd.Flags()
	addDemo(cmd, "use the car of an embedded demo")
	flags.StringVar(&o.pace, "pace", "", "novice, intermediate, advanced, expert or a share of grip such as 80%; without it the lap time")
	flags.StringVar(&o.lapTime, "lap-time", "", "the lap to drive, such as 1:51; without it the circuit's own")
	flags.StringVar(&o.friction, "friction", "", "peak friction of the tires driven on, such as 1.4 on slicks; without it the car's")
	flags.StringVar(&o.line, "line", "", "which line of a map, by its name or its number")
	flags.StringVar(&o.direction, "direction", "", "the way round: "+nearest.OneOf(circuits.Directions))
	flags.BoolVar(&o.reverse, "reverse", false, "the other way round, as --direction reverse")
	flags.BoolVar(&o.wet, "wet", false, "on a wet circuit: less grip, and no hot rubber")
	flags.StringVar(&o.save, "save", "", "keep it in the car folder as circuits/ID.yaml")
	flags.StringVar(&o.rank, "rank", "", "order the folder's circuits by what they take from a set or a corner of the car")
	flags.StringVarP(&o.output, "output", "o", "", "draw it as a page of its own, in this .html file")
	flags.BoolVar(&o.plain, "plain", false, "draw with plain characters")
	return cmd
}

func runCircuit(s *session, o circuitOptions, files []string) error {
	what := ""
	if len(files) > 0 {
		what = files[0]
	}
	switch {
	case what == "" && o.rank == "":
		return terminal.Misuse("circuit needs a track, a map or a name", "tripwear circuit session.gpx, tripwear circuit heron-flats, or tripwear circuit --rank hub-LR")
	case what != "" && o.rank != "":
		return terminal.Misuse("--rank takes no circuit beside it, and one is named", "leave the circuit out: --rank orders all circuits of the car folder")
	case o.pace != "" && o.lapTime != "":
		return terminal.Misuse("--pace and --lap-time exclude each other", "give one of them: a lap time is turned into a pace")
	case o.reverse && o.direction != "" && o.direction != circuits.Reverse:
		return terminal.Misuse("--reverse and --direction "+terminal.Quoted(o.direction)+" exclude each other", "give one of them")
	case o.direction != "" && !slices.Contains(circuits.Directions, o.direction):
		return terminal.Misuse("--direction "+terminal.Quoted(o.direction)+" is no way round", "write "+nearest.OneOf(circuits.Directions))
	case o.line != "" && !trace.Is(what):
		return terminal.Misuse("--line needs a file with a map", "tripwear circuit map.kml --line 2")
	case o.output != "" && !strings.HasSuffix(strings.ToLower(o.output), ".html"):
		return terminal.Misuse("--output "+terminal.Quoted(o.output)+" is not an .html file", "write -o circuit.html")
	case o.output != "" && o.rank != "":
		return terminal.Misuse("--output draws one circuit, and --rank orders all", "tripwear circuit heron-flats -o circuit.html")
	case o.save != "" && (o.rank != "" || s.demo != ""):
		return terminal.Misuse("--save needs a circuit and a car folder", "tripwear circuit session.gpx --car my-car --save heron-flats")
	case o.save != "" && !logbook.IDForm.MatchString(o.save):
		return terminal.Misuse("--save "+terminal.Quoted(o.save)+" is not an id", "write letters, digits, dots and dashes, such as heron-flats")
	}
	load := profiles.Load
	if o.rank != "" {
		load = profiles.LoadLean
	}
	folder, err := s.loadBy(load)
	if err != nil {
		return err
	}
	drive, err := o.drive(folder)
	if err != nil {
		return err
	}
	if o.friction != "" {
		mu, err := quantity.Parse[quantity.Number](o.friction)
		if err != nil || !(mu >= 0.5 && mu <= 2) {
			return terminal.Misuse("--friction "+terminal.Quoted(o.friction)+" is no friction of a tire", "write a number from 0.5 to 2: street tires have 1.0")
		}
		folder.Car.Friction = mu
	}
	if o.rank != "" {
		return runRank(s, folder, o.rank, drive)
	}
	file, old := what, folder.Circuits[o.save]
	if trace.Is(what) {
		if what, err = s.addTrack(folder, files, o); err != nil {
			return err
		}
	}
	done := s.stage("circuit")
	circuit, err := circuits.Describe(folder, what, drive)
	done()
	switch {
	case err == nil:
	case trace.Is(file) && errors.As(err, new(profiles.Errors)):
		return terminal.InFile(file, err, "")
	case o.lapTime != "":
		return terminal.AsMisuse("--lap-time: ", err, "give a lap time that lies between the two")
	case trace.Is(file):
		return terminal.AsMisuse(file+": ", err, "record at least one whole lap at speed, with a fix a second or more often")
	default:
		return terminal.AsMisuse("", err, cannotDrive)
	}
	if o.save != "" {
		if err := s.saveCircuit(circuit, folder.Circuits[circuit.ID], old, o.save, drive.LapTime); err != nil {
			return err
		}
	}
	if o.output != "" {
		if err := s.draw(circuit, o.output); err != nil {
			return err
		}
	}
	return show(s, circuit, func(out io.Writer, c *plan.Circuit, v report.View) error {
		return report.Circuit(out, c, report.CircuitOptions{View: v, Plain: o.plain})
	})
}

// draw writes the circuit as a page of HTML.
func (s *session) draw(c *plan.Circuit, file string) error {
	var page bytes.Buffer
	if err := picture.Write(&page, c, s.system); err != nil {
		return terminal.Misuse("--output: "+c.Name+": "+err.Error(), "give its corners, a recorded track or a map")
	}
	if err := durable.Replace(file, func(w io.Writer) error {
		_, err := page.WriteTo(w)
		return err
	}); err != nil {
		return err
	}
	s.log.Info().Msg("wrote " + file)
	return nil
}

// drive reads how the circuit is to be driven.
func (o circuitOptions) drive(f *profiles.Folder) (circuits.Drive, error) {
	d := circuits.Drive{Pace: o.pace, Direction: o.direction, Wet: o.wet}
	if o.reverse {
		d.Direction = circuits.Reverse
	}
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

// addTrack puts a recorded track or a map into the folder as a circuit and gives
// its id.
func (s *session) addTrack(f *profiles.Folder, files []string, o circuitOptions) (id string, err error) {
	file := files[0]
	id = o.save
	if id == "" {
		id = strings.TrimSuffix(filepath.Base(file), filepath.Ext(file))
	}
	c := profiles.Circuit{ID: id, Name: title(id), Line: o.line}
	done := s.stage("track")
	for _, file = range files {
		if err = c.ReadTrack(s.open(filepath.Dir(file)), filepath.Base(file)); err != nil {
			break
		}
	}
	done()
	switch {
	case err != nil:
		hint := "name a recording or a map in a format that is read; tripwear help formats lists them"
		if bad := (profiles.Errors)(nil); errors.As(err, &bad) && bad[0].Line > 0 {
			hint = "correct that place, or export the file again; tripwear help formats says what is read"
		}
		return "", terminal.InFile(file, err, hint)
	case c.Trace != nil && o.line != "":
		return "", terminal.Misuse("--line: "+file+" is a recording, which has no lines to choose from", "leave --line out")
	case c.Trace != nil:
		for i, t := range append([]*trace.Trace{c.Trace}, c.Trace.More...) {
			s.logRead(files[i], "fixes", len(t.Fixes))
		}
	default:
		s.logRead(file, "points", len(c.Map.Points))
	}
	s.tell(c.Notes)
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

// saveCircuit keeps a new circuit, with the line of its map beside it.
func (s *session) saveCircuit(c *plan.Circuit, is, old profiles.Circuit, id string, lapTime float64) error {
	mapFile := path.Join("maps", id+".csv")
	text, err := circuits.File(c, mapFile, lapTime)
	if err != nil {
		return terminal.Misuse("--save: "+err.Error(), "record a session there, or write its corners")
	}
	over := is.Trace != nil && old.Map != nil
	files := []store.File{{Name: path.Join("circuits", id+".yaml"), Text: text, Over: over}}
	if is.Map != nil && old.ID == "" {
		files = slices.Insert(files, 0, store.File{Name: mapFile, Text: is.Map.CSV(c.Reverse)})
	}
	written, err := s.kept.Save(files...)
	if err != nil {
		return err
	}
	for _, file := range written {
		s.log.Info().Msg("wrote " + file)
	}
	if over {
		s.log.Info().Msg("it takes the place of a map, " + old.File + ", which is read no longer")
	}
	return nil
}

func runRank(s *session, f *profiles.Folder, what string, drive circuits.Drive) error {
	done := s.stage("circuits")
	ranking, err := circuits.Rank(f, what, drive)
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	return show(s, ranking, report.Ranking)
}
