package main

import (
	"bytes"
	"context"
	"flag"
	"fmt"
	"io"
	"math"

	"oxturn/drawing/pdf"
	"oxturn/drawing/sheets"
	"oxturn/layout/asjson"
	"oxturn/layout/compare"
)

const compareHelp = `
Says what changed between two revisions of a job, in the terms of those who
order and build it: rooms, fixtures, cable, amps, quantities, and where joints,
end caps and sensors moved to.

  oxturn compare old/bath.toml bath.toml
  oxturn compare old/bath.toml bath.toml --format json
  oxturn compare old/bath.toml bath.toml -o out

Flags:
  -o DIR                 also draw the changes on the newer plan, clouded:
                         NAME-changes.pdf
  --format FORMAT        text or json
` + mannerHelp + `
Exit codes: 0 compared, also where nothing changed; 1 errors in a job, 2 usage.
`

func compareVerb(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("compare", flag.ContinueOnError)
	dir := fs.String("o", "", "")
	format := fs.String("format", "text", "")
	m := mannerFlags(fs)
	names, code, ok := parse(c, "compare", fs, args)
	if !ok {
		return code
	}
	if len(names) != 2 {
		c.say("oxturn compare: two job files are compared, the older first; %d are named\nhint: oxturn help compare", len(names))
		return exitUsage
	}
	if !m.settle(c, "compare") || !formatKnown(c, "compare", *format) || !folderKnown(c, "compare", *dir) {
		return exitUsage
	}
	var works [2]*work
	for i, name := range names {
		if works[i], code = loadPlan(ctx, c, name, m); code != exitOK {
			return code
		}
	}
	changes := compare.Plans(works[0].plan, works[1].plan)
	if *format == "json" {
		if err := writeChanges(c.Out, names, changes); err != nil {
			c.say("oxturn compare: %v", err)
			return exitUsage
		}
	} else {
		printChanges(c, names, changes)
	}
	if *dir == "" {
		return exitOK
	}
	return drawChanges(c, works[1], changes, *dir)
}

func printChanges(c *console, names []string, changes []compare.Change) {
	if len(changes) == 0 {
		fmt.Fprintf(c.Out, "nothing changed from %s to %s\n", names[0], names[1])
		return
	}
	for _, x := range changes {
		fmt.Fprintln(c.Out, x)
	}
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

func writeChanges(w io.Writer, names []string, changes []compare.Change) error {
	out := struct {
		Schema  int          `json:"schema"`
		Before  string       `json:"before"`
		After   string       `json:"after"`
		Changes []changeJSON `json:"changes"`
	}{1, names[0], names[1], []changeJSON{}}
	tenth := func(v float64) float64 { return math.Round(v*10) / 10 }
	for _, x := range changes {
		j := changeJSON{Room: x.Room, What: x.What, How: x.How, Before: x.Before, After: x.After, Moved: tenth(x.Moved)}
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

func drawChanges(c *console, w *work, changes []compare.Change, dir string) int {
	set, err := sheets.ChangePlans(w.plan, changes)
	if err != nil {
		c.say("oxturn compare: nothing was drawn: %v", err)
		return exitJob
	}
	if len(set) == 0 {
		c.say("nothing to draw: no change has a place on the plan")
		return exitOK
	}
	var b bytes.Buffer
	if err := pdf.Write(&b, set, w.info()); err != nil {
		c.say("oxturn compare: nothing was drawn: %v", err)
		return exitUsage
	}
	to := &folder{dir: dir}
	defer to.close()
	name := w.source.base + "-changes.pdf"
	if err := to.write([]file{{name, b.Bytes()}}); err != nil {
		c.say("oxturn compare: nothing was written: %v", err)
		return exitUsage
	}
	c.say("drawn    %s", name)
	return exitOK
}
