package main

import (
	"bytes"
	"context"
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"text/template"
)

const newHelp = `
Writes a complete job, with comments, that can be drawn at once: change what
your room has otherwise. Asks nothing and never overwrites. Beside it goes
` + schemaFile + `, by which editors complete and check the keys.

  oxturn new                       a bath, bath.toml, in millimetres
  oxturn new --units in
  oxturn new --kind kitchen jobs/hill-street.toml

Flags:
  --kind KIND            bath, kitchen or entry (default bath)
  --units UNITS          mm or in (default mm)

Exit codes: 0 done, 2 usage, or the file is there already.
`

// starterKinds are the words --kind takes; each has a file in starters,
// and parts.txt is what they share.
var starterKinds = []string{"bath", "kitchen", "entry"}

//go:embed starters
var starters embed.FS

// A newOrder is what the flags of new ask for.
type newOrder struct{ kind, units string }

func (o *newOrder) flags(f *verbFlags) {
	f.word(&o.kind, "kind", "bath", starterKinds...)
	f.StringVar(&o.units, "units", "mm", "")
	f.hold(func() error {
		if o.units != "mm" && o.units != "in" {
			return fmt.Errorf("--units %q is not known; use mm or in", o.units)
		}
		return nil
	})
}

func (o *newOrder) run(_ context.Context, c *commandLine) int {
	switch len(c.args) {
	case 0:
		return writeStarter(c, o.kind+".toml", o.kind, o.units)
	case 1:
		return writeStarter(c, c.args[0], o.kind, o.units)
	}
	return c.fail(fmt.Errorf("it takes one file, not %d", len(c.args)))
}

func writeStarter(c *commandLine, name, kind, units string) int {
	if err := writeNew(name, starter(kind, units)); err != nil {
		return c.fail(err)
	}
	c.say("%s: %s to start from", name, withArticle(kind))
	if err := writeNew(filepath.Join(filepath.Dir(name), schemaFile), jobSchema()); err != nil &&
		!errors.Is(err, fs.ErrExist) {
		c.say("%v: editors will not complete keys", err)
	}
	c.say(
		"next:  oxturn watch %s   to see it while you change it\n       oxturn draw %s -o out   to write the drawings",
		name, name)
	return exitOK
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

func (e errThere) Error() string {
	return fmt.Sprintf("%s is there already and is left as it is; give another name", e.name)
}
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
func starter(kind, units string) []byte {
	pick := func(inches, millimetres string) string {
		if units == "in" {
			return inches
		}
		return millimetres
	}
	t, err := template.New(kind+".toml").Funcs(template.FuncMap{"pick": pick}).ParseFS(starters,
		"starters/"+kind+".toml", "starters/parts.txt")
	if err != nil {
		panic(err) // the templates are built in and all tested
	}
	var b bytes.Buffer
	if err := t.Execute(&b, map[string]any{"Units": units, "Cables": starterCables(kind, units)}); err != nil {
		panic(err)
	}
	return b.Bytes()
}

// starterCables are invented, about 3.6 W/ft (12 W/m): a catalogue in steps
// that leave every usual room a fit.
func starterCables(kind, units string) []starterCable {
	var out []starterCable
	if units == "mm" {
		for _, m := range []int{12, 16, 20, 26, 34, 44, 58, 75, 98} {
			out = append(out, labelled("X230", "m", "4 m", m, 230, 12*m))
		}
		return out
	}
	volts := 240
	if kind == "bath" {
		volts = 120
	}
	for _, ft := range []int{40, 52, 64, 80, 100, 130, 170, 220, 270, 320} {
		out = append(out, labelled(fmt.Sprintf("X%d", volts), "ft", "12 ft", ft, volts, ft*37/10))
	}
	return out
}

func labelled(id, unit, lead string, length, volts, watts int) starterCable {
	return starterCable{fmt.Sprintf("%s-%d", id, length), fmt.Sprintf("%d %s", length, unit), lead, volts, watts,
		fmt.Sprintf("%.1f", float64(volts*volts)/float64(watts))}
}
