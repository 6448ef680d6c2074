package main

import (
	"fmt"
	"strings"

	"oxturn/layout/job"
)

// helpTable prints the keys of one table of the job file.
func helpTable(c *console, path string) int {
	path = strings.Trim(path, "[]")
	var tables []string
	for _, k := range job.Keys() {
		if isTable(k) {
			tables = append(tables, k.Path)
		}
	}
	text := jobFileText(path)
	if text == "" {
		c.say("oxturn help job-file: there is no table %q%s\nhint: the tables are %s", path, didYouMean(path, tables), strings.Join(tables, ", "))
		return exitUsage
	}
	fmt.Fprint(c.Out, text)
	return exitOK
}

func isTable(k job.Key) bool { return k.Type == job.TypeTable || k.Type == job.TypeTables }

// jobFileText is the reference of the job file, generated from the list of
// keys by which jobs are read; of one table where path is not empty.
func jobFileText(path string) string {
	var b strings.Builder
	if path == "" {
		b.WriteString("A job file is TOML (toml.io): keys = values under [table] headers. Keys with a\nstar must be given.\n\n")
	}
	for _, k := range job.Keys() {
		inside := path == "" || k.Path == path || k.Parent() == path
		switch {
		case !inside:
		case isTable(k):
			fmt.Fprintf(&b, "\n%s%s\n%s\n\n", k.Header(), star(k), indent(wrap(k.Doc+".", 76)))
		default:
			b.WriteString(keyLines(k))
		}
	}
	return b.String()
}

func star(k job.Key) string {
	if k.Required {
		return " *"
	}
	return ""
}

// keyLines are a key's name, what it takes and its text, hung under the name.
func keyLines(k job.Key) string {
	text := k.Doc + "."
	if k.Default != "" {
		text += " Default: " + k.Default + "."
	} else if k.Otherwise != "" {
		text += " Left out: " + k.Otherwise + "."
	}
	if k.Type == job.TypeChoice {
		text = strings.Join(k.Values, ", ") + ". " + text
	}
	lines := strings.Split(wrap(text, 56), "\n")
	out := fmt.Sprintf("  %-20s %s\n", k.Name()+star(k), lines[0])
	for _, l := range lines[1:] {
		out += strings.Repeat(" ", 23) + l + "\n"
	}
	return out + strings.Repeat(" ", 23) + "e.g. " + lastLine(k.Example) + "\n"
}

func lastLine(s string) string { return s[strings.LastIndexByte(s, '\n')+1:] }
