package main

import (
	"fmt"
	"slices"
	"strings"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"example.com/tripwear/cmd/tripwear/config"
	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/quantity"
	"example.com/tripwear/profiles/store"
)

// settings are what the config file, the environment and the flags may say,
// in rising order of weight.
type settings struct {
	Config    string `mapstructure:"config"`
	Units     string `mapstructure:"units"`
	Car       string `mapstructure:"car"`
	JSON      bool   `mapstructure:"json"`
	Quiet     bool   `mapstructure:"quiet"`
	Verbose   int    `mapstructure:"verbose"`
	LogFormat string `mapstructure:"log-format"`
	Draws     int    `mapstructure:"draws"`
	Seed      uint64 `mapstructure:"seed"`
}

func addSettings(flags *pflag.FlagSet) {
	flags.String("config", "", "YAML file of settings; else tripwear/config.yaml in your config folder")
	flags.String("units", "us", "units of the output: us or metric")
	flags.String("car", ".", "the car folder")
	flags.Bool("json", false, "print the result as JSON, in SI units")
	flags.Bool("quiet", false, "print results only")
	flags.CountP("verbose", "v", "say on stderr what was read and how long each stage took; -vv also when it begins")
	flags.String("log-format", "console", "form of what goes to stderr: console or json")
	flags.Int("draws", planner.DefaultDraws, "random draws of the projection")
	flags.Uint64("seed", planner.DefaultSeed, "seed of the draws")
}

// addPrior gives a command its --prior.
func addPrior(cmd *cobra.Command) {
	cmd.Flags().Bool("prior", false, "leave aside what the logbook teaches of the rates")
}

// session is a command's settings, read and checked.
type session struct {
	environment
	settings
	system quantity.System
	log    zerolog.Logger
	cmd    *cobra.Command
	demo   string       // the embedded car folder to take, "" for --car
	prior  bool         // leaves aside what the logbook teaches
	kept   *store.Store // what --car names, once it was opened
}

// reads wraps a command that has its settings read first.
func (env environment) reads(run func(*session, []string) error) func(*cobra.Command, []string) error {
	return func(cmd *cobra.Command, args []string) error {
		s, err := env.session(cmd)
		if err != nil {
			return err
		}
		return run(s, args)
	}
}

// session reads a command's settings.
func (env environment) session(cmd *cobra.Command) (*session, error) {
	flags := cmd.Flags()
	if flags.Changed("demo") {
		for _, arg := range flags.Args() {
			if slices.Contains(profiles.DemoNames(), arg) {
				return nil, terminal.Misuse(fmt.Sprintf("--demo stands apart from its name %q", arg), "write --demo="+arg)
			}
		}
	}
	v := viper.New()
	v.SetEnvPrefix("tripwear")
	v.SetEnvKeyReplacer(strings.NewReplacer("-", "_"))
	v.AutomaticEnv()
	if err := v.BindPFlags(cmd.Root().PersistentFlags()); err != nil {
		return nil, err
	}
	file, err := config.Read(v, flags, env.open, env.configDir)
	if v.GetString("log-format") == "json" {
		log := terminal.Logger(env.stderr, env.now, 0, false, true)
		env.complaints.Log = &log
	}
	if err != nil {
		return nil, err
	}
	from := config.Origin{Flags: flags, File: file}
	if err := from.CheckTypes(v); err != nil {
		return nil, err
	}
	s := &session{environment: env, cmd: cmd}
	s.demo, _ = flags.GetString("demo") // not every command has these two
	s.prior, _ = flags.GetBool("prior")
	if err := v.UnmarshalExact(&s.settings); err != nil {
		return nil, terminal.Misuse("settings: "+err.Error(), config.Hint)
	}
	if err := s.checkValues(from); err != nil {
		return nil, err
	}
	s.log = terminal.Logger(env.stderr, env.now, s.Verbose, s.Quiet, s.LogFormat == "json")
	if !s.Quiet && s.LogFormat == "console" {
		env.waiting.Start(cmd.CommandPath())
	}
	if path := v.ConfigFileUsed(); path != "" {
		s.logRead(path, "settings", len(file))
	}
	return s, nil
}

// checkValues refuses values of the right type that are not taken.
func (s *session) checkValues(from config.Origin) (err error) {
	refuse := func(key string, value any, hint string) error {
		return terminal.Misuse(fmt.Sprintf("%s: %v is not taken, expected %s", from.Of(key), value, config.Taken(from.Flags.Lookup(key))), hint)
	}
	if s.system, err = quantity.ParseSystem(s.Units); err != nil {
		return terminal.Misuse(from.Of("units")+": "+err.Error(), "write --units us or --units metric")
	}
	switch {
	case s.Draws < planner.LeastDraws || s.Draws > planner.MostDraws:
		return refuse("draws", s.Draws, fmt.Sprintf("the usual %d are plenty", planner.DefaultDraws))
	case s.Verbose < 0 || s.Verbose > terminal.MostVerbose:
		return refuse("verbose", s.Verbose, "write -v or -vv")
	case s.LogFormat != "console" && s.LogFormat != "json":
		return refuse("log-format", terminal.Quoted(s.LogFormat), "leave it out for the usual console")
	case s.Quiet && s.Verbose > 0 && from.Flags.Changed("quiet") == from.Flags.Changed("verbose"):
		return terminal.Misuse(from.Of("quiet")+" and "+from.Of("verbose")+" exclude each other", "leave one of the two out")
	}
	s.Quiet = s.Quiet && (s.Verbose == 0 || from.Flags.Changed("quiet")) // the flag wins
	return nil
}
