package main

import (
	"context"
	"fmt"
	"strings"
)

const helpHelp = `
  oxturn help draw
`

func help(_ context.Context, c *console, args []string) int {
	if len(args) == 0 {
		fmt.Fprint(c.Out, overview())
		return exitOK
	}
	v, ok := verbNamed(args[0])
	if !ok {
		c.say("oxturn help: there is no verb %q%s", args[0], didYouMean(args[0], verbNames()))
		return exitUsage
	}
	fmt.Fprintf(c.Out, "oxturn %s\n%s\n%s", v.use, v.short, v.help)
	return exitOK
}

// A helpFlag is a flag as a verb's help lists it.
type helpFlag struct {
	name  string // "-o", "--only"
	value string // what it takes, empty for a switch
	doc   string
}

// helpFlags reads the Flags list of a verb's help, so that help, completion
// and manual say the same.
func helpFlags(v verb) []helpFlag {
	_, list, found := strings.Cut(v.help, "\nFlags:\n")
	if !found {
		return nil
	}
	var out []helpFlag
	for _, line := range strings.Split(list, "\n") {
		if !strings.HasPrefix(line, "  -") {
			break
		}
		head, doc, _ := strings.Cut(strings.TrimSpace(line), "  ")
		name, value, _ := strings.Cut(head, " ")
		out = append(out, helpFlag{name, value, strings.TrimSpace(doc)})
	}
	return out
}
