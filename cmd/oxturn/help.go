package main

import (
	"context"
	"embed"
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing/setting"
	"oxturn/drawing/sheets"
)

const helpHelp = `
A topic is one of job-file, units, exit-codes and sheets; a key, or a table, is
one of the job file, by its name or by its whole path.

  oxturn help draw
  oxturn help pitch
  oxturn help fixture                  a table with its keys
  oxturn help room.fixture.at
  oxturn help job-file                 every key of the job file
  oxturn help job-file room.fixture    those of one table
  oxturn help --man > oxturn.1         all of it as a manual page

Flags:
  --man                  the manual page
`

//go:embed topics
var topicFiles embed.FS

// A topic is a text on what is not one verb's alone.
type topic struct{ name, short string }

func topics() []topic {
	return []topic{
		{"job-file", "every key of the job file"},
		{"units", "how lengths and other quantities are written"},
		{"exit-codes", "what a script may rely on"},
		{"sheets", "what is drawn and for whom"},
	}
}

func topicNames() []string {
	var out []string
	for _, t := range topics() {
		out = append(out, t.name)
	}
	return out
}

// topicText returns a topic's text.
func topicText(name string) string {
	if name == "job-file" {
		return jobFileText("")
	}
	data, err := topicFiles.ReadFile("topics/" + name + ".txt")
	if err != nil {
		panic(err) // built in; a test reads them all
	}
	if name == "sheets" {
		return "What draw writes, in the order of the PDF, and below what draw --for X writes:\n" +
			sheetKinds() + string(data)
	}
	return string(data)
}

// idColumns columns stand before what an ID means.
const idColumns = 15

// sheetKinds lists the kinds of sheet with what each shows, and the readers with
// what each needs.
func sheetKinds() string {
	var b strings.Builder
	for _, k := range setKinds() {
		fmt.Fprintf(&b, "  %-13s%s\n", k.ID, strings.ReplaceAll(wrap(k.About, 67), "\n",
			"\n"+strings.Repeat(" ", idColumns)))
	}
	var before []string // lists are short: the topic is to fit a screen
	last := ""
	for _, r := range sheets.Readers() {
		ids := idsFor(r)
		words := strings.Join(ids, ", ")
		if left := less(before, ids); len(left) > 0 && len(left)+len(ids) == len(before) {
			words = "as " + last + ", without " + strings.Join(left, ", ")
		}
		before, last = ids, r
		fmt.Fprintf(&b, "for %-12s%s\n", r, strings.ReplaceAll(wrap(words, 64), "\n", "\n"+strings.Repeat(" ", 16)))
	}
	return b.String()
}

// idsFor are the kinds of sheet that a reader needs.
func idsFor(reader string) (ids []string) {
	for _, k := range setKinds() {
		if slices.Contains(k.Readers, reader) {
			ids = append(ids, k.ID)
		}
	}
	return ids
}

// less returns the IDs that others have not.
func less(ids, others []string) []string {
	return slices.DeleteFunc(slices.Clone(ids), func(id string) bool { return slices.Contains(others, id) })
}

// setKinds are the kinds of sheet that draw writes.
func setKinds() []setting.Kind {
	return slices.DeleteFunc(sheets.Kinds(), func(k setting.Kind) bool { return k.Verb != "" })
}

// A helpOrder is what the flags of help ask for.
type helpOrder struct{ man bool }

func (o *helpOrder) flags(f *verbFlags) { f.BoolVar(&o.man, "man", false, "") }

func (o *helpOrder) run(_ context.Context, c *commandLine) int {
	switch {
	case o.man:
		fmt.Fprint(c.Out, manual())
		return exitOK
	case len(c.args) == 0:
		fmt.Fprint(c.Out, overview())
		return exitOK
	case len(c.args) == 2 && c.args[0] == "job-file":
		return helpTable(c.console, c.args[1])
	}
	return helpOn(c.console, c.args[0])
}

func helpOn(c *console, name string) int {
	text := helpText(name)
	if text == "" {
		c.say("oxturn help: there is no verb, topic or key %q%s", name, nearWords(name))
		return exitUsage
	}
	fmt.Fprint(c.Out, text)
	return exitOK
}

// helpText is the help on a verb, a topic or a key; "" where there is none.
func helpText(name string) string {
	if v, ok := verbNamed(name); ok {
		return fmt.Sprintf("oxturn %s\n%s\n%s", v.use, v.short, v.help)
	}
	if !slices.Contains(topicNames(), name) {
		return keyHelp(name)
	}
	text := topicText(name)
	if keyHelp(name) != "" {
		text += fmt.Sprintf("\n%s is a key of the job file too: oxturn help job-file %s\n", name, name)
	}
	return text
}

// flagIndent begins a line that goes on with the text of the flag above it.
const flagIndent = "          "

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
		if more, ok := strings.CutPrefix(line, flagIndent); ok && out != nil {
			out[len(out)-1].doc += " " + strings.TrimSpace(more)
			continue
		}
		if !strings.HasPrefix(line, "  -") {
			break
		}
		head, doc, _ := strings.Cut(strings.TrimSpace(line), "  ")
		name, value, _ := strings.Cut(head, " ")
		out = append(out, helpFlag{name, value, strings.TrimSpace(doc)})
	}
	return out
}
