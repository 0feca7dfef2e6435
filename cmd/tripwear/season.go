package main

import (
	"cmp"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/calendar"
	"example.com/tripwear/profiles/quantity"
)

type seasonOptions struct {
	from, to, usual string
	all             bool
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

Decisions of later trips are as they look today; read the car at home before
each, and plan again.

Exit status: 0 where every trip can be driven as decided, 1 where one cannot, 2
bad input or use.`,
		Example: `  tripwear season --usual 600mi/month
  tripwear season spring summer --all`,
		RunE: env.reads(func(s *session, args []string) error { return runSeason(s, o, args) }),
	}
	cmd.Flags().StringVar(&o.from, "from", "", "the first day on which a trip may leave, such as 2027-04-18")
	cmd.Flags().StringVar(&o.to, "to", "", "the last")
	cmd.Flags().StringVar(&o.usual, "usual", "", "everyday driving between trips, such as 600mi/month, in place of usual in car.yaml")
	cmd.Flags().BoolVar(&o.all, "all", false, "everything: also why, trip by trip, and what other times would cost")
	addDemo(cmd, "plan the season of an embedded demo")
	addPrior(cmd)
	return cmd
}

func runSeason(s *session, o seasonOptions, names []string) error {
	var from, to time.Time
	var usual quantity.Mileage
	if err := cmp.Or(
		flagged(&from, "from", o.from, "a day such as 2027-04-18", day),
		flagged(&to, "to", o.to, "a day such as 2027-10-31", day),
		flagged(&usual, "usual", o.usual, "miles such as 600mi/month", quantity.Parse[quantity.Mileage]),
	); err != nil {
		return err
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	if o.usual != "" {
		folder.Car.Usual = usual
	}
	trips, err := planner.SeasonTrips(folder, names, from, to)
	if err != nil {
		return err
	}
	if len(trips) == 0 {
		return terminal.Misuse("no trip of the folder leaves then", "name the trips, or another --from and --to")
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
	return answer(made.Safe, show(s, made, text))
}

// flagged reads what a flag was given, if it was.
func flagged[T any](into *T, flag, text, expected string, read func(string) (T, error)) error {
	if text == "" {
		return nil
	}
	v, err := read(text)
	if err != nil {
		return terminal.Misuse("--"+flag+" "+terminal.Quoted(text)+" is not taken, expected "+expected, "tripwear season --help shows its use")
	}
	*into = v
	return nil
}

func day(text string) (time.Time, error) { return time.Parse(time.DateOnly, text) }
