package main

import (
	"context"
	"fmt"
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
