package main

import (
	"os"

	"oxturn/layout/job"
)

// printReport writes the diagnostics of one job: for people on the error
// stream, for programs (json) on the output, as it is what they asked for.
func printReport(c *console, r *job.Report, style string) {
	switch style {
	case "json":
		r.JSON(c.Out)
	case "short":
		r.Short(c.Err)
	default:
		r.Human(c.Err, colour(c))
	}
}

// colour reports whether messages may be coloured: on a terminal that can,
// and where the user has not said no.
func colour(c *console) bool {
	f, ok := c.Err.(*os.File)
	if !ok || os.Getenv("NO_COLOR") != "" || os.Getenv("TERM") == "dumb" {
		return false
	}
	info, err := f.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
