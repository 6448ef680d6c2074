package main

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"oxturn/layout/job"
)

// manyJobs turns what the user named into job files: a folder stands for the
// jobs in it, in the order of their names, and a file named twice is taken
// once. Where there are several, catalogues among them are passed over, as a
// shell's *.toml brings them in.
func manyJobs(c *commandLine, words []string) (names []string, err error) {
	if words = orUsualJob(words); len(words) == 0 {
		return nil, fmt.Errorf("no job file given\nhint: oxturn %s JOB.toml; oxturn new starts one", c.verb)
	}
	for _, w := range words {
		more, err := inFolder(w)
		if err != nil {
			return nil, err
		}
		names = append(names, more...)
	}
	names = distinct(names)
	if len(names) < 2 && !isFolder(words[0]) {
		return names, nil
	}
	return withoutCatalogues(c, names)
}

// withoutCatalogues passes over the catalogues among job files, and says so.
func withoutCatalogues(c *commandLine, names []string) (jobs []string, err error) {
	var passed []string
	for _, n := range names {
		if isCatalogue(n) {
			passed = append(passed, n)
		} else {
			jobs = append(jobs, n)
		}
	}
	if len(passed) > 0 {
		c.say("passed over %s: a catalogue has no room to draw", strings.Join(passed, ", "))
	}
	if len(jobs) == 0 {
		return nil, errors.New("no job file among what was named")
	}
	return jobs, nil
}

// jobAskedAbout takes the single job file of a verb that answers about one.
func jobAskedAbout(c *commandLine, words []string) ([]string, error) {
	names := orUsualJob(words)
	switch len(names) {
	case 0:
		return nil, fmt.Errorf("no job file given\nhint: oxturn help %s", c.verb)
	case 1:
		return names, nil
	}
	return nil, fmt.Errorf("%d files are named, and one is asked about; give figures with a sign or spaces in "+
		"quotes\n"+
		"hint: oxturn help %s", len(names), c.verb)
}

func jobToChooseFor(_ *commandLine, words []string) ([]string, error) {
	if words = orUsualJob(words); len(words) != 1 {
		return nil, fmt.Errorf("it takes one job file, not %d\nhint: oxturn choose JOB.toml", len(words))
	}
	return words, nil
}

func jobToWatch(_ *commandLine, words []string) ([]string, error) {
	if words = orUsualJob(words); len(words) != 1 || words[0] == "-" {
		return nil, errors.New("it takes one job file\nhint: oxturn watch JOB.toml")
	}
	return words, nil
}

func twoJobs(_ *commandLine, words []string) ([]string, error) {
	if len(words) != 2 {
		return nil, fmt.Errorf("two job files are compared, the older first; %d are named\nhint: oxturn help compare",
			len(words))
	}
	return words, nil
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
	if err != nil || !info.Mode().IsRegular() || info.Size() > 1<<mebibyte {
		return false
	}
	data, err := readFile(name)
	return err == nil && job.IsCatalogue(data)
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
