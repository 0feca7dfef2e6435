package main

import (
	"fmt"
	"io"
	"slices"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/viper"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
)

// settings are what the config file, the environment and the flags may say,
// in rising order of weight.
type settings struct {
	Units string `mapstructure:"units"`
	Car   string `mapstructure:"car"`
	JSON  bool   `mapstructure:"json"`
	Quiet bool   `mapstructure:"quiet"`
	Draws int    `mapstructure:"draws"`
	Seed  uint64 `mapstructure:"seed"`
}

// session is a command's settings, read and checked.
type session struct {
	world
	settings
	system quantity.System
	log    zerolog.Logger
}

const about = `tripwear plans what a drive to circuit days and home again takes from a car:
tread, pads, rotors, hub bearings, oil and brake fluid, leg by leg, with the
chance that each lasts, and what to renew, carry or watch.

Exit status: 0 fine, 1 the answer is "not safe as planned", 2 bad input or use.
Settings come from flags, then TRIPWEAR_UNITS, TRIPWEAR_CAR, TRIPWEAR_JSON,
TRIPWEAR_QUIET, TRIPWEAR_DRAWS and TRIPWEAR_SEED, then the --config file.`

func newRootCommand(w world) *cobra.Command {
	root := &cobra.Command{
		Use: "tripwear", Short: "What lasts the trip, what to renew, what to carry", Long: about,
		Version:       version(),
		SilenceErrors: true, SilenceUsage: true,
		Args: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return &useError{"unknown command " + shown(args[0]), "tripwear help lists the commands"}
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, _ []string) error { return cmd.Help() },
	}
	root.SetOut(w.stdout)
	root.SetErr(w.stderr)
	root.SetFlagErrorFunc(ofFlags)
	flags := root.PersistentFlags()
	flags.String("config", "", "YAML file of settings (units, car, json, quiet, draws, seed)")
	flags.String("units", "us", "units of the output: us or metric")
	flags.String("car", ".", "the car folder")
	flags.Bool("json", false, "print the result as JSON, in SI units")
	flags.Bool("quiet", false, "print results only")
	flags.Int("draws", planner.DefaultDraws, "random draws of the projection")
	flags.Uint64("seed", planner.DefaultSeed, "seed of the draws")
	root.AddCommand(newPlanCommand(w), newCheckCommand(w), newNewCommand(w), newOilCommand(w), newLogCommand(w), newLearnCommand(w), newLastsCommand(w), newCompareCommand(w), newCircuitCommand(w), newManCommand(w), newFormatsTopic())
	root.SetHelpCommand(newHelpCommand())
	w.completions(root)
	return root
}

// session reads a command's settings.
func (w world) session(cmd *cobra.Command) (*session, error) {
	if demo := cmd.Flags().Lookup("demo"); demo != nil && demo.Changed {
		for _, arg := range cmd.Flags().Args() {
			if slices.Contains(profiles.DemoNames(), arg) {
				return nil, &useError{fmt.Sprintf("--demo stands apart from its name %q", arg), "write --demo=" + arg}
			}
		}
	}
	v := viper.New()
	v.SetEnvPrefix("TRIPWEAR")
	for _, key := range settingsKeys {
		flag := cmd.Flags().Lookup(key)
		v.SetDefault(key, flag.DefValue)
		if err := v.BindPFlag(key, flag); err != nil {
			return nil, err
		}
		if err := v.BindEnv(key); err != nil {
			return nil, err
		}
	}
	config, err := w.readConfig(v, cmd.Flags())
	if err != nil {
		return nil, err
	}
	from := origin{cmd.Flags(), config}
	if err := from.sound(v); err != nil {
		return nil, err
	}
	s := &session{world: w}
	if err := v.UnmarshalExact(&s.settings); err != nil {
		return nil, &useError{"settings: " + err.Error(), configHint}
	}
	system, err := quantity.ParseSystem(s.Units)
	if err != nil {
		return nil, &useError{from.of("units") + ": " + err.Error(), "write --units us or --units metric"}
	}
	if s.Draws < planner.LeastDraws || s.Draws > planner.MostDraws {
		return nil, &useError{fmt.Sprintf("%s: %d is not taken, expected %s", from.of("draws"), s.Draws, taken(cmd.Flags().Lookup("draws"))), fmt.Sprintf("the usual %d are plenty", planner.DefaultDraws)}
	}
	s.system = system
	level := zerolog.InfoLevel
	if s.Quiet {
		level = zerolog.WarnLevel
	}
	s.log = logger(w.stderr, level)
	if !s.Quiet {
		w.waiting.start(cmd.CommandPath())
	}
	return s, nil
}

// logger writes plain lines: this is a person's terminal, not a server's log.
func logger(w io.Writer, level zerolog.Level) zerolog.Logger {
	console := zerolog.ConsoleWriter{Out: w, NoColor: true, PartsOrder: []string{zerolog.LevelFieldName, zerolog.MessageFieldName},
		FormatMessage: func(m any) string { return plainly(fmt.Sprint(m)) }}
	return zerolog.New(console).Level(level)
}
