package main

import (
	"io"
	"time"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/planner/page"
	"example.com/tripwear/planner/report"
)

// stage logs how long a stage of the work took, in milliseconds, once it is
// done.
func (s *session) stage(name string) (done func()) {
	s.log.Trace().Msg(name + " begins")
	begun := s.now()
	return func() {
		s.log.Debug().Dur("ms", s.now().Sub(begun).Round(100*time.Microsecond)).Msg(name)
	}
}

// options are those of every plan; a demo reads the same on any day.
func (s *session) options() planner.Options {
	o := planner.Options{Draws: s.Draws, Seed: s.Seed, Prior: s.prior, Today: s.planned()}
	s.log.Debug().Int("draws", o.Draws).Uint64("seed", o.Seed).Bool("prior", s.prior).Msg("projection")
	return o
}

// planned is the day on which a plan is made; none for a demo, which is the same
// on any day.
func (s *session) planned() time.Time {
	if s.demo != "" {
		return time.Time{}
	}
	return s.today()
}

// view is how results are printed.
func (s *session) view() page.View { return page.View{Units: s.system, Width: terminal.Width()} }

// show prints a result as text or as JSON.
func show[T any](s *session, result T, asText func(io.Writer, T, report.View) error) error {
	defer s.stage("print")()
	if s.JSON {
		return report.JSON(s.stdout, result)
	}
	return asText(s.stdout, result, s.view())
}

// answer is what printing an answer comes to: the exit status tells whether it
// is a safe one.
func answer(safe bool, printed error) error {
	if printed == nil && !safe {
		return terminal.ErrUnsafe
	}
	return printed
}
