package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"example.com/tripwear/cmd/tripwear/config"
	"example.com/tripwear/cmd/tripwear/terminal"
)

// exactlyOne wants one argument.
func exactlyOne(what, hint string) cobra.PositionalArgs {
	return refuse(func(n int) bool { return n != 1 }, what, hint)
}

// noArguments wants none.
func noArguments(name, hint string) cobra.PositionalArgs {
	return refuse(func(n int) bool { return n > 0 }, name+" takes no arguments", hint)
}

func refuse(wrong func(n int) bool, what, hint string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if wrong(len(args)) {
			return terminal.Misuse(what, hint)
		}
		return nil
	}
}

// atMostOne allows one argument.
func atMostOne(name string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if len(args) > 1 {
			return terminal.Misuse(fmt.Sprintf("%s takes one %s, not %d", cmd.CommandPath(), name, len(args)), cmd.CommandPath()+" --help shows its use")
		}
		return nil
	}
}

// aCommand is for commands that only have others below them: what stands there
// is none of those.
func aCommand(of, hint string) cobra.PositionalArgs {
	return func(_ *cobra.Command, args []string) error {
		if len(args) > 0 {
			return terminal.Misuse("unknown command "+terminal.Quoted(args[0])+of, hint)
		}
		return nil
	}
}

// ofFlags says what is wrong with a command's flags.
func ofFlags(cmd *cobra.Command, err error) error {
	hint := cmd.CommandPath() + " --help lists its flags"
	var value *pflag.InvalidValueError
	var lacks *pflag.ValueRequiredError
	var none *pflag.NotExistError
	var form *pflag.InvalidSyntaxError
	switch {
	case errors.As(err, &value):
		flag := value.GetFlag()
		return terminal.Misuse(fmt.Sprintf("--%s: %s is not taken, expected %s", flag.Name, terminal.Quoted(value.GetValue()), config.Taken(flag)), hint)
	case errors.As(err, &lacks):
		return terminal.Misuse(fmt.Sprintf("--%s has no value", lacks.GetFlag().Name), hint)
	case errors.As(err, &none) && none.GetSpecifiedShortnames() != "":
		return terminal.Misuse("unknown flag "+terminal.Quoted("-"+none.GetSpecifiedShortnames()), hint+"; a value that begins with a minus sign goes after --")
	case errors.As(err, &none):
		return terminal.Misuse("unknown flag "+terminal.Quoted("--"+none.GetSpecifiedName()), hint)
	case errors.As(err, &form):
		return terminal.Misuse(terminal.Quoted(form.GetSpecifiedFlag())+" is not a flag", hint)
	}
	return terminal.Misuse(cmd.CommandPath()+": "+err.Error(), hint)
}
