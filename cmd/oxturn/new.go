package main

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"strings"
	"text/template"

	"oxturn/layout/draft"
)

const newHelp = `
Writes a complete job, with comments, that can be drawn at once: change what
your room has otherwise. Asks nothing and never overwrites. Beside it goes
` + schemaFile + `, by which editors complete and check the keys.

  oxturn new                       a bath, bath.toml, in millimetres
  oxturn new --units in
  oxturn new --kind kitchen jobs/hill-street.toml
  oxturn new --tape hall.toml      walls typed one by one, as you measure them
  oxturn new --from survey.csv     rooms from elsewhere, as a draft to be taped

A draft's rooms come from a CSV table of walls, a row a wall, with the columns
direction (or turn) and length, and room where there are several; a DXF drawing
with closed outlines; the JSON of a phone's room scan; or GeoJSON polygons. What
was taken and what was left out is said, and on which lengths the cable hangs.

Flags:
  --kind KIND            bath, kitchen or entry (default bath)
  --units UNITS          mm or in (default mm): what the job is written in
  --tape                 ask for the walls of one room
  --from FILE            take rooms from a .csv, .dxf, .json or .geojson
  --file-units UNIT      what its bare numbers are in: mm, cm, m, in or ft
  --layer NAME           the layer of a drawing that rooms are on

Exit codes: 0 done, 2 usage, a file that no room can be read from, or the file
to be written is there already.
`

// starterKinds are the words --kind takes; each has a file in starters,
// and parts.txt is what they share.
var starterKinds = []string{"bath", "kitchen", "entry"}

//go:embed starters
var starters embed.FS

// A newOrder is what the flags of new ask for.
type newOrder struct {
	kind, units            string
	tape                   bool
	from, fileUnits, layer string
}

func (o *newOrder) flags(f *verbFlags) {
	f.word(&o.kind, "kind", "bath", starterKinds...)
	f.StringVar(&o.units, "units", "mm", "")
	f.BoolVar(&o.tape, "tape", false, "")
	f.text(&o.from, "from")
	f.word(&o.fileUnits, "file-units", "", draft.Units...)
	f.text(&o.layer, "layer")
	f.hold(o.checkDraft)
	f.hold(func() error {
		if o.units != "mm" && o.units != "in" {
			return fmt.Errorf("--units %q is not known; use mm or in", o.units)
		}
		return nil
	})
}

// checkDraft refuses flags of drafts that say nothing of what is asked.
func (o *newOrder) checkDraft() error {
	switch {
	case o.tape && o.from != "":
		return errors.New("--tape and --from both give the room; keep one of them")
	case o.from == "" && o.layer != "":
		return errors.New("--layer says nothing without --from")
	case o.from == "" && o.fileUnits != "":
		return errors.New("--file-units says nothing without --from")
	}
	return nil
}

func (o *newOrder) run(ctx context.Context, c *commandLine) int {
	switch {
	case len(c.args) > 1:
		return c.fail(fmt.Errorf("it takes one file, not %d", len(c.args)))
	case o.from != "":
		return o.fromFile(ctx, c)
	case o.tape:
		return o.byTape(ctx, c)
	}
	name := o.kind + ".toml"
	if len(c.args) == 1 {
		name = c.args[0]
	}
	if code := writeStarterText(c, name, starter(o.kind, o.units)); code != exitOK {
		return code
	}
	c.say("%s: %s to start from", name, withArticle(o.kind))
	c.sayNext(name)
	return exitOK
}

// writeStarterText writes a job that must not be there yet, and the schema beside it.
func writeStarterText(c *commandLine, name string, text []byte) int {
	if err := writeNew(name, text); err != nil {
		return c.fail(err)
	}
	if err := writeNew(filepath.Join(filepath.Dir(name), schemaFile), jobSchema()); err != nil &&
		!errors.Is(err, fs.ErrExist) {
		c.say("%v: editors will not complete keys", err)
	}
	return exitOK
}

// sayNext says what is done with a new job.
func (c *console) sayNext(name string) {
	c.say(
		"next:  oxturn watch %s   to see it while you change it\n       oxturn draw %s -o out   to write the drawings",
		name, name)
}

// withArticle is a kind of starter as it stands in a sentence.
func withArticle(kind string) string {
	if strings.ContainsAny(kind[:1], "aeiou") {
		return "an " + kind
	}
	return "a " + kind
}

// errThere is that a file is not overwritten.
type errThere struct{ name string }

// Error names the file that is there.
func (e errThere) Error() string {
	return fmt.Sprintf("%s is there already and is left as it is; give another name", e.name)
}

// Is makes it an fs.ErrExist.
func (e errThere) Is(target error) bool { return target == fs.ErrExist }

// writeNew writes a file that must not be there yet, and removes it when it
// does not come out whole.
func writeNew(name string, data []byte) error {
	err := writeSafe(name, data)
	if errors.Is(err, fs.ErrExist) {
		return errThere{name}
	}
	if err != nil {
		os.Remove(name)
		return writeError(name, err)
	}
	return nil
}

// A starterCable is a cable of a starter job, as its label would have it.
type starterCable struct {
	ID, Length, Lead string
	Volts, Watts     int
	Ohms             string
}

// starter is the text of a starter job.
func starter(kind, units string) []byte { return starterWith(kind, kind, units, nil) }

// starterWith fills in a starter's template; cables are those for the kind of room.
func starterWith(file, kind, units string, more map[string]any) []byte {
	pick := func(inches, millimetres string) string {
		if units == "in" {
			return inches
		}
		return millimetres
	}
	t, err := template.New(file+".toml").Funcs(template.FuncMap{"pick": pick}).ParseFS(starters,
		"starters/"+file+".toml", "starters/parts.txt")
	if err != nil {
		panic(err) // the templates are built in and all tested
	}
	fill := map[string]any{"Units": units, "Cables": starterCables(kind, units), "Kind": kind}
	maps.Copy(fill, more)
	var b bytes.Buffer
	if err := t.Execute(&b, fill); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// What starter cables are made for, and what they give; invented, as common practice has it.
const (
	volts120, volts230, volts240 = 120, 230, 240
	wattsPerMetre                = 12
	wattsPer10ft                 = 37
	starter230, starter240       = "X230", "X240"
)

// starterCables are invented, about 3.6 W/ft (12 W/m): a catalogue in steps
// that leave every usual room a fit.
func starterCables(kind, units string) []starterCable {
	var out []starterCable
	if units == "mm" {
		for _, m := range []int{12, 16, 20, 26, 34, 44, 58, 75, 98} {
			out = append(out, labelled(starter230, "m", "4 m", m, volts230, wattsPerMetre*m))
		}
		return out
	}
	volts := volts240
	if kind == "bath" {
		volts = volts120
	}
	for _, ft := range []int{40, 52, 64, 80, 100, 130, 170, 220, 270, 320} {
		out = append(out, labelled(fmt.Sprintf("X%d", volts), "ft", "12 ft", ft, volts, ft*wattsPer10ft/10))
	}
	return out
}

func labelled(id, unit, lead string, length, volts, watts int) starterCable {
	return starterCable{fmt.Sprintf("%s-%d", id, length), fmt.Sprintf("%d %s", length, unit), lead, volts, watts,
		fmt.Sprintf("%.1f", float64(volts*volts)/float64(watts))}
}
