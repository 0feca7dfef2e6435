package guide

import (
	"bytes"
	"cmp"
	"strings"

	"github.com/spf13/cobra"

	"example.com/tripwear/planner/page"
)

// Fit has the help of a command and of all below it fit the terminal.
func Fit(root *cobra.Command, width int) {
	v := page.View{Width: width}
	root.SetHelpFunc(func(c *cobra.Command, args []string) {
		to := c.OutOrStdout()
		var text bytes.Buffer
		c.SetOut(&text)
		defer c.SetOut(nil)
		if about := strings.TrimSpace(cmp.Or(c.Long, c.Short)); about != "" {
			text.WriteString(about + "\n\n")
		}
		if c.Runnable() || c.HasSubCommands() {
			text.WriteString(c.UsageString())
		}
		out := page.New(to, v)
		out.Reflow(text.String())
		out.Flush()
	})
}
