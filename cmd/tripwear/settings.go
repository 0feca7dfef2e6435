package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
)

var settingsKeys = []string{"units", "car", "json", "quiet", "draws", "seed"}

const configHint = "--config names a YAML file with keys such as units: metric"

// taken says what a flag takes.
func taken(flag *pflag.Flag) string {
	switch kind := flag.Value.Type(); {
	case flag.Name == "draws":
		return fmt.Sprintf("a whole number from %d to %d", planner.LeastDraws, planner.MostDraws)
	case kind == "bool":
		return "true or false"
	case kind == "uint64":
		return fmt.Sprintf("a whole number from 0 to %d", uint64(math.MaxUint64))
	case kind == "int":
		return fmt.Sprintf("a whole number up to %d", math.MaxInt32)
	}
	return "text"
}

// readConfig reads the file that --config names into v and returns what it
// says, with its places.
func (w world) readConfig(v *viper.Viper, flags *pflag.FlagSet) (profiles.Sources, error) {
	path, err := flags.GetString("config")
	if err != nil || !flags.Changed("config") {
		return nil, err
	}
	if path == "" {
		return nil, &useError{"--config has no value", configHint}
	}
	config, err := profiles.ReadSettings(w.open(filepath.Dir(path)), filepath.Base(path), settingsKeys)
	if err != nil {
		return nil, inFile(path, err, configHint)
	}
	said := map[string]any{}
	for key, source := range config {
		source.File = path
		config[key] = source
		said[key] = source.Value
	}
	return config, v.MergeConfigMap(said)
}

// inFile names a file as it was given on the command line in the errors about
// it, which have its last name or none, and says what to do where they do not.
func inFile(path string, err error, hint string) error {
	var bad profiles.Errors
	if errors.As(err, &bad) {
		hinted := false
		for _, e := range bad {
			if e.File == "" || e.File == filepath.Base(path) {
				e.File = path
			}
			hinted = hinted || e.Hint != ""
		}
		if last := bad[len(bad)-1]; !hinted {
			last.Hint = hint
		}
	}
	return err
}

// origin tells where each setting comes from.
type origin struct {
	flags  *pflag.FlagSet
	config profiles.Sources
}

// of names the place of a setting: its flag, its variable, or its line.
func (o origin) of(key string) string {
	name := "TRIPWEAR_" + strings.ToUpper(key)
	source, inConfig := o.config[key]
	switch {
	case o.flags.Changed(key):
		return "--" + key
	case os.Getenv(name) != "":
		return name
	case inConfig:
		return source.Position.String() + ": " + key
	}
	return "--" + key
}

// sound refuses a value of the environment or the config file that is not of
// its flag's type; the flags themselves were read by then.
func (o origin) sound(v *viper.Viper) error {
	for _, key := range settingsKeys {
		s := v.GetString(key)
		var err error
		kind := o.flags.Lookup(key).Value.Type()
		switch kind {
		case "bool":
			_, err = strconv.ParseBool(s)
		case "int":
			_, err = strconv.Atoi(s)
		case "uint64":
			_, err = strconv.ParseUint(s, 10, 64)
		}
		if err != nil {
			flag := o.flags.Lookup(key)
			return &useError{fmt.Sprintf("%s: %s is not taken, expected %s", o.of(key), shown(s), taken(flag)), "leave it out for the usual " + flag.DefValue}
		}
	}
	return nil
}
