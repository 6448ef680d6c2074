package main

import (
	"context"
	"fmt"
	"strings"

	"oxturn/layout"
)

// loadPlan reads and plans a job without drawing it, and prints every
// diagnostic. The work has a plan when the code is exitOK.
func loadPlan(ctx context.Context, c *console, name string, m *manner) (*work, int) {
	undrawn := *m
	undrawn.undrawn = true
	return load(ctx, c, name, "", &undrawn)
}

// oneJob takes the single job file of a verb that asks about one.
func oneJob(c *console, verb string, names []string) (string, bool) {
	names = orUsualJob(names)
	switch len(names) {
	case 0:
		c.say("oxturn %s: no job file given\nhint: oxturn help %s", verb, verb)
	case 1:
		return names[0], true
	default:
		c.say("oxturn %s: %d files are named, and one is asked about; give figures with a sign or spaces in quotes\nhint: oxturn help %s", verb, len(names), verb)
	}
	return "", false
}

// roomNamed finds a room of a plan; without a name, its only one.
func roomNamed(p *layout.Plan, name string) (*layout.Room, error) {
	var names []string
	for i := range p.Rooms {
		if strings.EqualFold(p.Rooms[i].Job.Name, name) || name == "" && len(p.Rooms) == 1 {
			return &p.Rooms[i], nil
		}
		names = append(names, p.Rooms[i].Job.Name)
	}
	if name == "" {
		return nil, fmt.Errorf("the job has several rooms: name one with --room; rooms: %s", strings.Join(names, ", "))
	}
	return nil, fmt.Errorf("the job has no room %q%s; rooms: %s", name, didYouMean(name, names), strings.Join(names, ", "))
}

// formatKnown checks --format.
func formatKnown(c *console, verb, format string) bool {
	if format == "text" || format == "json" {
		return true
	}
	c.say("oxturn %s: --format %q is not known%s; use text or json", verb, format, didYouMean(format, []string{"text", "json"}))
	return false
}
