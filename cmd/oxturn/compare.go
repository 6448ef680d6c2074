package main

import (
	"context"
	"fmt"
	"io"
	"math"
	"slices"

	"oxturn/drawing/sheets"
	"oxturn/layout/asjson"
	"oxturn/layout/compare"
)

const compareHelp = `
Says what changed between two revisions of a job, in the terms of those who
order and build it: rooms, fixtures, cable, amps, quantities, and where joints,
end caps and sensors moved to; what it costs more or less, how many days, and
whether the cable already bought still serves.

  oxturn compare old/bath.toml bath.toml
  oxturn compare old/bath.toml bath.toml --format json
  oxturn compare old/bath.toml bath.toml -o out

Flags:
  -o DIR                 also draw the changes on the newer plan, clouded:
                         NAME-changes.pdf
  --format FORMAT        text or json
` + jobFlagsHelp + `
Exit codes: 0 compared, also where nothing changed; 1 errors in a job, 2 usage.
`

// A compareOrder is what the flags of compare ask for.
type compareOrder struct{ dir, format string }

func (o *compareOrder) flags(f *verbFlags) {
	f.folder(&o.dir)
	f.format(&o.format)
}

func (o *compareOrder) run(ctx context.Context, c *commandLine) int {
	older, code := c.load(ctx, c.args[0], "", workOptions{undrawn: true})
	if code != exitOK {
		return code
	}
	newer, code := c.load(ctx, c.args[1], "", workOptions{undrawn: true})
	if code != exitOK {
		return code
	}
	changes := compare.Plans(older.plan, newer.plan)
	inJSON := func(w io.Writer) error { return writeChanges(w, c.args, changes, c.told) }
	inWords := func() []string { return c.tellEach(changeLines(c.args, toldChanges(changes, c.told))) }
	if err := c.answer(o.format, inJSON, inWords); err != nil {
		return c.fail(err)
	}
	if o.dir == "" {
		return exitOK
	}
	return drawChanges(c, newer, changes, o.dir)
}

func changeLines(names []string, changes []compare.Change) (out []string) {
	if len(changes) == 0 {
		return []string{fmt.Sprintf("nothing changed from %s to %s", names[0], names[1])}
	}
	for _, x := range changes {
		out = append(out, x.String())
	}
	return out
}

// toldChanges are the changes with what they say told; the words between are told with the whole line.
func toldChanges(changes []compare.Change, told func(string) string) []compare.Change {
	out := slices.Clone(changes)
	for i := range out {
		x := &out[i]
		x.What, x.How, x.Before, x.After = told(x.What), told(x.How), told(x.Before), told(x.After)
	}
	return out
}

// changeJSON is one change for other programs.
type changeJSON struct {
	Room    string       `json:"room,omitempty"`
	What    string       `json:"what"`
	How     string       `json:"how,omitempty"`
	Before  string       `json:"before"`
	After   string       `json:"after"`
	Figures []figureJSON `json:"figures,omitempty"`
	Moved   float64      `json:"moved_mm,omitempty"`
	At      *[2]float64  `json:"at,omitempty"`
}

// figureJSON is one number of a change; null where a revision has none.
type figureJSON struct {
	Of     string   `json:"of"`
	Unit   string   `json:"unit"`
	Before *float64 `json:"before"`
	After  *float64 `json:"after"`
	Change *float64 `json:"change,omitempty"`
}

func numbers(f compare.Figure) figureJSON {
	out := figureJSON{Of: f.Of, Unit: f.Unit, Before: f.Before, After: f.After}
	if f.Before != nil && f.After != nil {
		by := math.Round((*f.After-*f.Before)*1e3)/1e3 + 0
		out.Change = &by
	}
	return out
}

// writeChanges writes changes for programs: told puts into words what is to be read.
func writeChanges(w io.Writer, names []string, changes []compare.Change, told func(string) string) error {
	out := struct {
		Schema  int          `json:"schema"`
		Before  string       `json:"before"`
		After   string       `json:"after"`
		Changes []changeJSON `json:"changes"`
	}{1, names[0], names[1], []changeJSON{}}
	tenth := func(v float64) float64 { return math.Round(v*10) / 10 }
	for _, x := range changes {
		j := changeJSON{Room: x.Room, What: x.What, How: told(x.How), Before: told(x.Before), After: told(x.After),
			Moved: tenth(x.Moved)}
		for _, f := range x.Figures {
			j.Figures = append(j.Figures, numbers(f))
		}
		if x.At != nil {
			j.At = &[2]float64{tenth(x.At.X), tenth(x.At.Y)}
		}
		out.Changes = append(out.Changes, j)
	}
	return asjson.Write(w, out)
}

func drawChanges(c *commandLine, w *work, changes []compare.Change, dir string) int {
	set, err := sheets.ChangePlans(w.plan, changes)
	if err != nil {
		return c.stop(exitJob, notDrawn(err))
	}
	if len(set) == 0 {
		c.say("nothing to draw: no change has a place on the plan")
		return exitOK
	}
	files := &fileSet{base: w.source.base + "-changes"}
	files.pdf(set, w.unpriced())
	return c.writeSet(files, dir)
}
