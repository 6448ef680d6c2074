package main

import (
	"context"
	"errors"
)

const watchHelp = `
Draws the job each time it is saved, and shows it in the browser. The page that
you are using does that by itself.
`

// A watchOrder does nothing here: a browser cannot serve a page.
type watchOrder struct{}

func (*watchOrder) flags(*verbFlags) {}

func (*watchOrder) run(_ context.Context, c *commandLine) int {
	return c.fail(errors.New("this page draws the job as you change it; watch is for the terminal"))
}
