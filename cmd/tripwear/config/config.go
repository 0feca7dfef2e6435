// Package config reads the config file and the variables of the environment,
// and says where each setting comes from.
package config

import (
	"fmt"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"github.com/spf13/pflag"
	"github.com/spf13/viper"

	"example.com/tripwear/cmd/tripwear/terminal"
	"example.com/tripwear/planner"
	"example.com/tripwear/profiles"
	"example.com/tripwear/profiles/decode"
)

// Keys are what a config file may say.
var Keys = []string{"units", "car", "json", "quiet", "verbose", "log-format", "draws", "seed"}

const (
	Hint     = "--config names a YAML file with keys such as units: metric"
	userHint = "every command reads this file where it stands; it has keys such as units: metric"
)

// Taken says what a flag takes.
func Taken(flag *pflag.Flag) string {
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

// Read gives v what the config file says and returns that with its
// places: the file that is named, or else config.yaml of the user's folder
// where there is one. The readers of profiles find what viper lets pass: keys
// that are none, values that are none, pipes, a file without end.
func Read(v *viper.Viper, flags *pflag.FlagSet, open func(string) fs.FS, dir func() (string, error)) (profiles.Sources, error) {
	path, hint := v.GetString("config"), Hint
	if path == "" && flags.Changed("config") {
		return nil, terminal.Misuse("--config has no value", Hint)
	}
	if path == "" {
		path, hint = users(open, dir), userHint
	}
	if path == "" {
		return nil, nil
	}
	config, err := decode.ReadSettings(open(filepath.Dir(path)), filepath.Base(path), Keys)
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

// users is the path of the user's own config file, "" where there is none.
func users(open func(string) fs.FS, folder func() (string, error)) string {
	if folder == nil {
		return ""
	}
	dir, err := folder()
	if err != nil {
		return ""
	}
	dir = filepath.Join(dir, "tripwear")
	if _, err := fs.Stat(open(dir), "config.yaml"); err != nil {
		return ""
	}
	return filepath.Join(dir, "config.yaml")
}

// Origin tells where each setting comes from.
type Origin struct {
	Flags *pflag.FlagSet
	File  profiles.Sources
}

// Of names the place of a setting: its flag, its variable, or its line.
func (o Origin) Of(key string) string {
	source, inConfig := o.File[key]
	switch {
	case o.Flags.Changed(key):
		return "--" + key
	case os.Getenv(Variable(key)) != "":
		return Variable(key)
	case inConfig:
		return source.Position.String() + ": " + key
	}
	return "--" + key
}

// Variable is a setting's name in the environment.
func Variable(key string) string {
	return "TRIPWEAR_" + strings.ToUpper(strings.ReplaceAll(key, "-", "_"))
}

// CheckTypes refuses a value of the environment or the config file that is not
// of its flag's type; the flags themselves were read by then.
func (o Origin) CheckTypes(v *viper.Viper) error {
	for _, key := range Keys {
		s := v.GetString(key)
		var err error
		flag := o.Flags.Lookup(key)
		switch flag.Value.Type() {
		case "bool":
			_, err = strconv.ParseBool(s)
		case "int", "count":
			_, err = strconv.Atoi(s)
		case "uint64":
			_, err = strconv.ParseUint(s, 10, 64)
		}
		if err != nil {
			return terminal.Misuse(fmt.Sprintf("%s: %s is not taken, expected %s", o.Of(key), terminal.Quoted(s), Taken(flag)), "leave it out for the usual "+flag.DefValue)
		}
	}
	return nil
}
