package main

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/layout/job/tree"
)

// jobNames turns what the user named into job files: a folder stands for the
// jobs in it, in the order of their names, and a file named twice is taken
// once. Where there are several, catalogues among them are passed over, as a
// shell's *.toml brings them in.
func jobNames(c *console, verb string, args []string) (names []string, ok bool) {
	if args = orUsualJob(args); len(args) == 0 {
		c.say("oxturn %s: no job file given\nhint: oxturn %s JOB.toml; oxturn new starts one", verb, verb)
		return nil, false
	}
	for _, a := range args {
		more, err := inFolder(a)
		if err != nil {
			c.say("oxturn %s: %v", verb, err)
			return nil, false
		}
		names = append(names, more...)
	}
	names = distinct(names)
	if len(names) < 2 && !isFolder(args[0]) {
		return names, true
	}
	jobs := slices.DeleteFunc(slices.Clone(names), isCatalogue)
	if n := len(names) - len(jobs); n > 0 {
		c.say("passed over %s: a catalogue has no room to draw", strings.Join(slices.DeleteFunc(names, func(n string) bool { return slices.Contains(jobs, n) }), ", "))
	}
	if len(jobs) == 0 {
		c.say("oxturn %s: no job file among what was named", verb)
		return nil, false
	}
	return jobs, true
}

// usualJob is the job that is meant where none is named.
const usualJob = "job.toml"

// orUsualJob stands in for a job that is not named, where that file is there.
func orUsualJob(args []string) []string {
	if _, err := os.Stat(usualJob); len(args) == 0 && err == nil {
		return []string{usualJob}
	}
	return args
}

// inFolder returns the .toml files of a folder, or the name itself.
func inFolder(name string) ([]string, error) {
	if !isFolder(name) {
		return []string{name}, nil
	}
	entries, err := os.ReadDir(name)
	if err != nil {
		return nil, plainError(name, err)
	}
	var out []string
	for _, e := range entries {
		if !e.IsDir() && strings.EqualFold(filepath.Ext(e.Name()), ".toml") && !strings.HasPrefix(e.Name(), ".") {
			out = append(out, filepath.Join(name, e.Name()))
		}
	}
	return out, nil
}

func isFolder(name string) bool {
	info, err := os.Stat(name)
	return name != "-" && err == nil && info.IsDir()
}

// distinct drops names of a file named before.
func distinct(names []string) []string {
	seen := map[string]bool{}
	var out []string
	for _, n := range names {
		if clean := filepath.Clean(n); !seen[clean] {
			seen[clean] = true
			out = append(out, n)
		}
	}
	return out
}

// isCatalogue reports whether a file has cables and nothing else of a job.
func isCatalogue(name string) bool {
	info, err := os.Stat(name)
	if err != nil || !info.Mode().IsRegular() || info.Size() > 1<<20 {
		return false
	}
	data, err := readFile(name)
	if err != nil {
		return false
	}
	root, err := tree.Parse(data)
	if err != nil || root.Get("cable") == nil {
		return false
	}
	for _, f := range root.Fields {
		if f.Name != "cable" && f.Name != "units" {
			return false
		}
	}
	return true
}

// clash returns two jobs whose outputs would have the same names.
func clash(names []string) (a, b string) {
	seen := map[string]string{}
	for _, n := range names {
		base := strings.ToLower(baseName(n))
		if first, ok := seen[base]; ok {
			return first, n
		}
		seen[base] = n
	}
	return "", ""
}
