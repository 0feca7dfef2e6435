package main

import (
	"cmp"
	"io"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/calendar"
	"example.com/tripwear/planner/plan"
	"example.com/tripwear/planner/yearbook"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/durable"
	"example.com/tripwear/profiles/quantity"
)

type seasonOptions struct {
	from, to, usual, budget, output string
	all                             bool
	events                          plan.Events
}

func newSeasonCommand(env environment) *cobra.Command {
	var o seasonOptions
	cmd := &cobra.Command{
		Use:   "season [TRIP...]",
		Short: "All trips of a year planned as one: what to replace when, what to order by when",
		Long: `Plan several trips as one, by date: each leaves with what the one before is
expected to leave, with everyday miles between them, and every part is replaced
where that costs least over the whole season. Without a TRIP it is every trip of
the folder that leaves after the last thing known of the car.

With --weekends or --spend the trips are candidates, at most 20, and those are
picked that the car can do for least, or that spare a wheel.

Decisions of later trips are as they look today; read the car at home before
each, and plan again.

Exit status: 0 where every trip can be driven as decided, 1 where one cannot, 2
bad input or use.`,
		Example: `  tripwear season --usual 600mi/month
  tripwear season spring summer --all
  tripwear season --weekends 3 --sparing RF`,
		RunE: env.reads(func(s *session, args []string) error { return runSeason(s, o, args) }),
	}
	cmd.Flags().StringVar(&o.from, "from", "", "the first day on which a trip may leave, such as 2027-04-18")
	cmd.Flags().StringVar(&o.to, "to", "", "the last")
	cmd.Flags().StringVar(&o.usual, "usual", "", "everyday driving between trips, such as 600mi/month, in place of usual in car.yaml")
	cmd.Flags().StringVar(&o.budget, "budget", "", "for parts a month, such as \"400 USD/month\", in place of budget in car.yaml")
	cmd.Flags().IntVar(&o.events.Weekends, "weekends", 0, "pick so many of the trips: the cheapest by the hour on circuit")
	cmd.Flags().Float64Var(&o.events.Spend, "spend", 0, "pick the trips with the most time on circuit for so much out of the purse")
	cmd.Flags().StringVar(&o.events.Sparing, "sparing", "", "pick those that wear the tread of a wheel least, such as RF, by the hour")
	cmd.Flags().StringVarP(&o.output, "output", "o", "", "write the season's workbook to this .xlsx file")
	cmd.Flags().BoolVar(&o.all, "all", false, "everything: also why, trip by trip, and what other times would cost")
	addDemo(cmd, "plan the season of an embedded demo")
	addPrior(cmd)
	return cmd
}

func runSeason(s *session, o seasonOptions, names []string) error {
	if o.output != "" && !strings.EqualFold(filepath.Ext(o.output), ".xlsx") {
		return terminal.Misuse("--output "+terminal.Quoted(o.output)+" is not an .xlsx file", "write -o season.xlsx")
	}
	var from, to time.Time
	if err := cmp.Or(
		terminal.Given(&from, "from", o.from, "a day such as 2027-04-18", terminal.Day),
		terminal.Given(&to, "to", o.to, "a day such as 2027-10-31", terminal.Day),
	); err != nil {
		return err
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	budget := strings.Replace(o.budget, folder.Car.Costs.Currency, "", 1)
	if err := cmp.Or(
		terminal.Given(&folder.Car.Usual, "usual", o.usual, "miles such as 600mi/month", quantity.Parse[quantity.Mileage]),
		terminal.Given(&folder.Car.Budget, "budget", budget, "money such as 400/month", quantity.Parse[quantity.Allowance]),
	); err != nil {
		return err
	}
	trips, err := planner.SeasonTrips(folder, names, from, to)
	if err != nil {
		return err
	}
	if len(trips) == 0 {
		return terminal.Misuse("no trip of the folder leaves then", "name the trips, or another --from and --to")
	}
	if e := o.events; e.Weekends != 0 || e.Spend != 0 || e.Sparing != "" {
		return s.pickEvents(folder, trips, o)
	}
	done := s.stage("season")
	made, err := planner.Season(folder, trips, s.options())
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	text := calendar.Screen
	if o.all {
		text = calendar.Text
	}
	return s.keep(made, o.output, func() error { return answer(made.Safe, show(s, made, text)) })
}

// keep writes a season's workbook, where a file is named, and then the rest.
func (s *session) keep(made *plan.Season, file string, then func() error) error {
	if file != "" {
		if err := durable.Replace(file, func(w io.Writer) error { return yearbook.Write(w, made, s.system) }); err != nil {
			return err
		}
	}
	return then()
}

// pickEvents picks from trips, and plans those picked.
func (s *session) pickEvents(folder *profiles.Folder, trips []profiles.Trip, o seasonOptions) error {
	trips, ask := planner.Drivable(trips), o.events
	if what, hint := ask.Wrong(len(trips)); what != "" {
		return terminal.Misuse(what, hint)
	}
	done := s.stage("events")
	made, err := planner.Events(folder, trips, ask, s.options())
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	if made.Season == nil {
		return answer(false, show(s, made, calendar.Events))
	}
	return s.keep(made.Season, o.output, func() error { return answer(made.Season.Safe, show(s, made, calendar.Events)) })
}
