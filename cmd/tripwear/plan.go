package main

import (
	"cmp"
	"io"
	"path/filepath"
	"slices"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/itinerary"
	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/card"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/report"
	"example.com/tripwear/planner/screen"
	"example.com/tripwear/planner/workbook"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/nearest"
)

type planOptions struct {
	output      string
	assumptions bool
	whole       bool
	all, why    bool
	show        []string
	line        itinerary.Line
	save        string
}

func newPlanCommand(env environment) *cobra.Command {
	var o planOptions
	cmd := &cobra.Command{
		Use:   "plan [TRIP]",
		Short: "What every part has left after every leg, and what to do about it",
		Long: `Plan a trip of the car folder: TRIP is the name of a file in trips/ without
.yaml, and may be left out where there is only one. --demo plans an embedded
example instead.`,
		Example: `  tripwear plan --demo -o plan.xlsx
  tripwear plan spring --car ~/juniper --units metric
  tripwear plan --demo --road 1010mi --circuit heron-flats --days 2 --road 1010mi`,
		Args: atMostOne("TRIP"),
		RunE: env.reads(func(s *session, args []string) error { return runPlan(s, &o, strings.Join(args, "")) }),
	}
	cmd.Flags().StringVarP(&o.output, "output", "o", "", "write the workbook to this .xlsx file, or the card to this .html file")
	addDemo(cmd, "plan an embedded demo")
	addPrior(cmd)
	cmd.Flags().BoolVar(&o.whole, "whole", false, "plan the trip from its start, whatever the logbook says was driven of it")
	o.line.AddTo(cmd.Flags())
	cmd.Flags().StringVar(&o.save, "save", "", "keep a trip given here as `NAME` in trips/")
	cmd.Flags().BoolVar(&o.why, "why", false, "print the reasons at length, with the next best and what would turn each")
	cmd.Flags().StringSliceVar(&o.show, "show", nil, "print these `SECTIONS` at length: "+strings.Join(report.Sections(), ", "))
	cmd.Flags().BoolVar(&o.all, "all", false, "print everything: reasons, legs, days and money, what is left after every leg, checks")
	cmd.Flags().BoolVar(&o.assumptions, "assumptions", false, "say which assumptions move the answer most, and list each with its source")
	return cmd
}

func runPlan(s *session, o *planOptions, tripID string) error {
	form := strings.ToLower(filepath.Ext(o.output))
	if o.output != "" && form != ".xlsx" && form != ".html" {
		return terminal.Misuse("--output "+terminal.Quoted(o.output)+" is neither .xlsx nor .html", "write -o plan.xlsx for the workbook, -o card.html for the card")
	}
	if o.why {
		o.show = append(o.show, "why")
	}
	for _, name := range o.show {
		if !slices.Contains(report.Sections(), name) {
			return terminal.Misuse("--show: "+nearest.Unknown("section", name, report.Sections()), "it takes one or more of "+strings.Join(report.Sections(), ", "))
		}
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	outing, options, err := s.asked(folder, tripID, o)
	if err != nil {
		return err
	}
	done := s.stage("plan")
	made, err := outing.Plan(options)
	done()
	if err == nil {
		done := s.stage("smallest change")
		planner.Safer(made, outing.Folder, outing.Trip, options)
		done()
		if o.assumptions {
			done := s.stage("what the answer leans on")
			planner.Leanings(made, outing.Folder, outing.Trip, options)
			done()
		}
	}
	if err != nil {
		return terminal.AsMisuse("trip "+outing.Trip.ID+": ", err, cannotDrive)
	}
	if form == ".html" {
		done := s.stage("card")
		if err := durable.Replace(o.output, func(w io.Writer) error { return card.HTML(w, made, s.system) }); err != nil {
			return err
		}
		done()
		s.log.Info().Msg("wrote " + o.output)
	}
	if form == ".xlsx" {
		done := s.stage("workbook")
		planner.Around(made, outing.Folder, outing.Trip)
		if err := workbook.Save(o.output, made, s.system); err != nil {
			return err
		}
		done()
		s.log.Info().Msg("wrote " + o.output)
	}
	return answer(made.Safe, show(s, made, func(out io.Writer, plan *plan.Plan, v report.View) error {
		if !o.all && !o.assumptions && o.show == nil {
			return screen.Text(out, plan, v)
		}
		show := o.show
		if o.all {
			show = nil
		}
		return report.Text(out, plan, report.Options{View: v, All: o.assumptions, Show: show})
	}))
}

// asked is the trip of the command line: given there, or of the folder.
func (s *session) asked(folder *profiles.Folder, id string, o *planOptions) (*planner.Outing, planner.Options, error) {
	none := planner.Options{}
	if !o.line.Given() {
		if o.save != "" {
			return nil, none, terminal.Misuse("--save has no trip to keep", "give one, such as --road 1010mi --circuit heron-flats --days 2 --road 1010mi")
		}
		return s.outing(folder, id, o.whole)
	}
	if id != "" {
		return nil, none, terminal.Misuse("a trip is named and given as well", "leave TRIP out, or the roads and circuits")
	}
	options := s.options()
	with, outing, err := o.line.Trip(folder, options.Today)
	if err != nil || o.save == "" {
		return planner.Whole(with, outing), options, err
	}
	if s.demo != "" {
		return nil, none, terminal.Misuse("--save takes a car folder, not a demo", "start one: tripwear new my-car --demo")
	}
	files, err := itinerary.Save(s.kept, o.save, folder.Circuits, with, outing)
	for _, file := range files {
		s.log.Info().Msg("wrote " + filepath.Join(s.Car, file))
	}
	return planner.Whole(with, outing), options, err
}

// outing is the trip with an id, or the one under way, or the only one: what is
// left of it, or whole.
func (s *session) outing(folder *profiles.Folder, id string, whole bool) (*planner.Outing, planner.Options, error) {
	begun := ""
	if !whole {
		var err error
		if begun, err = planner.UnderWay(folder, s.planned()); err != nil {
			return nil, planner.Options{}, terminal.AsMisuse("", err, cannotDrive)
		}
	}
	trip, err := folder.FindTrip(cmp.Or(id, begun))
	if err != nil {
		return nil, planner.Options{}, err
	}
	options := s.options()
	if trip.ID != begun {
		return planner.Whole(folder, trip), options, nil
	}
	outing, err := planner.Left(folder, trip, options)
	if err != nil {
		return nil, options, terminal.AsMisuse("trip "+trip.ID+": ", err, cannotDrive)
	}
	return outing, options, nil
}
