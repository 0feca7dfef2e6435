package main

import (
	"io"
	"time"

	"github.com/spf13/cobra"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/calendar"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/plan"
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
		Example: `  tripwear season --usual 600mi
  tripwear season spring summer --all`,
		RunE: env.reads(func(s *session, args []string) error { return runSeason(s, o, args) }),
	}
	cmd.Flags().StringVar(&o.from, "from", "", "the first day on which a trip may leave, such as 2027-04-18")
	cmd.Flags().StringVar(&o.to, "to", "", "the last")
	cmd.Flags().StringVar(&o.usual, "usual", "", "everyday driving a month between trips, such as 600mi; what is usual for the car unless given")
	cmd.Flags().BoolVar(&o.all, "all", false, "also what waiting costs, and what every set does on every trip")
	addDemo(cmd, "plan the season of an embedded demo")
	addPrior(cmd)
	return cmd
}

func runSeason(s *session, o seasonOptions, names []string) error {
	usual := -1.0
	var days [2]time.Time
	for i, text := range []string{o.from, o.to, o.usual} {
		var err error
		flag := []string{"--from ", "--to ", "--usual "}[i]
		switch {
		case text == "":
		case i < 2:
			days[i], err = time.Parse(time.DateOnly, text)
		default:
			var length quantity.Length
			length, err = quantity.Parse[quantity.Length](text)
			usual = float64(length)
		}
		if err != nil || i == 2 && text != "" && usual < 0 {
			return terminal.Misuse(flag+terminal.Quoted(text)+" is not taken, expected "+[]string{"a day such as 2027-04-18", "a day such as 2027-10-31", "miles a month such as 600mi"}[i], "tripwear season --help shows its use")
		}
	}
	folder, err := s.load()
	if err != nil {
		return err
	}
	trips, err := planner.SeasonTrips(folder, names, days[0], days[1])
	if err != nil {
		return err
	}
	if len(trips) == 0 {
		return terminal.Misuse("no trip of the folder leaves then", "name the trips, or another --from and --to")
	}
	done := s.stage("season")
	made, err := planner.Season(folder, trips, usual, s.options())
	done()
	if err != nil {
		return terminal.AsMisuse("", err, cannotDrive)
	}
	return answer(made.Safe, show(s, made, func(out io.Writer, season *plan.Season, v page.View) error {
		return calendar.Text(out, season, v, o.all)
	}))
}
