package main

import (
	"io"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/rs/zerolog"
	"github.com/spf13/cobra"
	"github.com/spf13/viper"
	"github.com/xuri/excelize/v2"
)

// BenchmarkDemo is the whole main job on the embedded demo, workbook included.
func BenchmarkDemo(b *testing.B) {
	path := filepath.Join(b.TempDir(), "plan.xlsx")
	w := world{stdout: io.Discard, stderr: io.Discard, now: time.Now, open: os.DirFS}
	for b.Loop() {
		if status := run(w, []string{"plan", "--demo", "-o", path}); status != exitFine {
			b.Fatalf("status %d", status)
		}
	}
}

// BenchmarkDemoScreen is the same without the workbook.
func BenchmarkDemoScreen(b *testing.B) {
	w := world{stdout: io.Discard, stderr: io.Discard, now: time.Now, open: os.DirFS}
	for b.Loop() {
		if status := run(w, []string{"plan", "--demo"}); status != exitFine {
			b.Fatalf("status %d", status)
		}
	}
}

// BenchmarkBare is a bare program with the same four libraries that writes an
// empty workbook.
func BenchmarkBare(b *testing.B) {
	path := filepath.Join(b.TempDir(), "bare.xlsx")
	for b.Loop() {
		v := viper.New()
		log := zerolog.New(io.Discard)
		cmd := &cobra.Command{Use: "bare", RunE: func(*cobra.Command, []string) error {
			f := excelize.NewFile()
			defer f.Close()
			log.Info().Msg(v.GetString("path"))
			return f.SaveAs(v.GetString("path"))
		}}
		v.SetDefault("path", path)
		cmd.SetArgs(nil)
		if err := cmd.Execute(); err != nil {
			b.Fatal(err)
		}
	}
}
