// Bare is a program with the same four libraries that writes an empty
// workbook: what no planner written with them can do without.
package main

import (
	"os"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/viper"
	"github.com/xuri/excelize/v2"
)

func main() {
	v := viper.New()
	v.SetEnvPrefix("BARE")
	cmd := &cobra.Command{Use: "bare", SilenceUsage: true, RunE: func(*cobra.Command, []string) error {
		f := excelize.NewFile()
		defer f.Close()
		if err := f.SaveAs(v.GetString("output")); err != nil {
			return err
		}
		log := zerolog.New(zerolog.ConsoleWriter{Out: os.Stderr})
		log.Info().Msg("wrote " + v.GetString("output"))
		return nil
	}}
	cmd.Flags().StringP("output", "o", "bare.xlsx", "the workbook")
	if err := v.BindPFlag("output", cmd.Flags().Lookup("output")); err != nil {
		panic(err)
	}
	if cmd.Execute() != nil {
		os.Exit(1)
	}
}
