package main

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
	"example.com/tripwear/profiles/quantity"
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

// settingsKeys are what a config file may say.
var settingsKeys = []string{"units", "car", "json", "quiet", "verbose", "log-format", "draws", "seed"}

const (
	configHint = "--config names a YAML file with keys such as units: metric"
	userHint   = "every command reads this file where it stands; it has keys such as units: metric"
)

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
	demo   string // the embedded car folder to take, "" for --car
	prior  bool   // leaves aside what the logbook teaches
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
	config, err := env.readConfig(v, flags)
	if v.GetString("log-format") == "json" {
		log := terminal.Logger(env.stderr, env.now, 0, false, true)
		env.complaints.Log = &log
	}
	if err != nil {
		return nil, err
	}
	from := origin{flags, config}
	if err := from.checkTypes(v); err != nil {
		return nil, err
	}
	s := &session{environment: env, cmd: cmd}
	s.demo, _ = flags.GetString("demo") // not every command has these two
	s.prior, _ = flags.GetBool("prior")
	if err := v.UnmarshalExact(&s.settings); err != nil {
		return nil, terminal.Misuse("settings: "+err.Error(), configHint)
	}
	if err := s.checkValues(from); err != nil {
		return nil, err
	}
	s.log = terminal.Logger(env.stderr, env.now, s.Verbose, s.Quiet, s.LogFormat == "json")
	if !s.Quiet && s.LogFormat == "console" {
		env.waiting.Start(cmd.CommandPath())
	}
	if file := v.ConfigFileUsed(); file != "" {
		s.logRead(file, "settings", len(config))
	}
	return s, nil
}

// checkValues refuses values of the right type that are not taken.
func (s *session) checkValues(from origin) (err error) {
	refuse := func(key string, value any, hint string) error {
		return terminal.Misuse(fmt.Sprintf("%s: %v is not taken, expected %s", from.of(key), value, taken(from.flags.Lookup(key))), hint)
	}
	if s.system, err = quantity.ParseSystem(s.Units); err != nil {
		return terminal.Misuse(from.of("units")+": "+err.Error(), "write --units us or --units metric")
	}
	switch {
	case s.Draws < planner.LeastDraws || s.Draws > planner.MostDraws:
		return refuse("draws", s.Draws, fmt.Sprintf("the usual %d are plenty", planner.DefaultDraws))
	case s.Verbose < 0 || s.Verbose > terminal.MostVerbose:
		return refuse("verbose", s.Verbose, "write -v or -vv")
	case s.LogFormat != "console" && s.LogFormat != "json":
		return refuse("log-format", terminal.Quoted(s.LogFormat), "leave it out for the usual console")
	case s.Quiet && s.Verbose > 0 && from.flags.Changed("quiet") == from.flags.Changed("verbose"):
		return terminal.Misuse(from.of("quiet")+" and "+from.of("verbose")+" exclude each other", "leave one of the two out")
	}
	s.Quiet = s.Quiet && (s.Verbose == 0 || from.flags.Changed("quiet")) // the flag wins
	return nil
}

// taken says what a flag takes.
func taken(flag *pflag.Flag) string {
	switch kind := flag.Value.Type(); {
	case flag.Name == "draws":
		return fmt.Sprintf("a whole number from %d to %d", planner.LeastDraws, planner.MostDraws)
	case flag.Name == "log-format":
		return "console or json"
	case kind == "count":
		return fmt.Sprintf("a whole number from 0 to %d", terminal.MostVerbose)
	case kind == "bool":
		return "true or false"
	case kind == "uint64":
		return fmt.Sprintf("a whole number from 0 to %d", uint64(math.MaxUint64))
	case kind == "int":
		return fmt.Sprintf("a whole number up to %d", math.MaxInt32)
	}
	return "text"
}

// readConfig gives v what the config file says and returns that with its
// places: the file that is named, or else config.yaml of the user's folder
// where there is one. The readers of profiles find what viper lets pass: keys
// that are none, values that are none, pipes, a file without end.
func (env environment) readConfig(v *viper.Viper, flags *pflag.FlagSet) (profiles.Sources, error) {
	path, hint := v.GetString("config"), configHint
	if path == "" && flags.Changed("config") {
		return nil, terminal.Misuse("--config has no value", configHint)
	}
	if path == "" {
		path, hint = env.userConfig(), userHint
	}
	if path == "" {
		return nil, nil
	}
	config, err := decode.ReadSettings(env.open(filepath.Dir(path)), filepath.Base(path), settingsKeys)
	if err != nil {
		return nil, terminal.InFile(path, err, hint)
	}
	values := map[string]any{}
	for key, source := range config {
		source.File = path
		config[key] = source
		values[key] = source.Value
	}
	v.SetConfigFile(path)
	return config, v.MergeConfigMap(values)
}

// userConfig is the path of the user's own config file, "" where there is none.
func (env environment) userConfig() string {
	if env.configDir == nil {
		return ""
	}
	dir, err := env.configDir()
	if err != nil {
		return ""
	}
	dir = filepath.Join(dir, "tripwear")
	if _, err := fs.Stat(env.open(dir), "config.yaml"); err != nil {
		return ""
	}
	return filepath.Join(dir, "config.yaml")
}

// origin tells where each setting comes from.
type origin struct {
	flags  *pflag.FlagSet
	config profiles.Sources
}

// of names the place of a setting: its flag, its variable, or its line.
func (o origin) of(key string) string {
	source, inConfig := o.config[key]
	switch {
	case o.flags.Changed(key):
		return "--" + key
	case os.Getenv(variable(key)) != "":
		return variable(key)
	case inConfig:
		return source.Position.String() + ": " + key
	}
	return "--" + key
}

// variable is a setting's name in the environment.
func variable(key string) string {
	return "TRIPWEAR_" + strings.ToUpper(strings.ReplaceAll(key, "-", "_"))
}

// checkTypes refuses a value of the environment or the config file that is not
// of its flag's type; the flags themselves were read by then.
func (o origin) checkTypes(v *viper.Viper) error {
	for _, key := range settingsKeys {
		s := v.GetString(key)
		var err error
		flag := o.flags.Lookup(key)
		switch flag.Value.Type() {
		case "bool":
			_, err = strconv.ParseBool(s)
		case "int", "count":
			_, err = strconv.Atoi(s)
		case "uint64":
			_, err = strconv.ParseUint(s, 10, 64)
		}
		if err != nil {
			return terminal.Misuse(fmt.Sprintf("%s: %s is not taken, expected %s", o.of(key), terminal.Quoted(s), taken(flag)), "leave it out for the usual "+flag.DefValue)
		}
	}
	return nil
}
