package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"oxturn/layout/job"
)

// didYouMean names the nearest of the known words, if one is near.
func didYouMean(word string, known []string) string {
	best, at := 3, ""
	for _, k := range known {
		if d := job.LettersApart(word, k); d < best && d < len(k) {
			best, at = d, k
		}
	}
	if at == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", at)
}

// noVerb says what is meant by a first word that is no verb: for a job or a
// folder, how to draw it.
func noVerb(name string) string {
	if isFolder(name) || strings.EqualFold(filepath.Ext(name), ".toml") {
		at := name
		if near := nearFile(name); near != "" {
			at = near
		} else if _, err := os.Stat(name); err != nil {
			return fmt.Sprintf("a verb comes first, and there is no file %s\nhint: oxturn new %s writes one to "+
				"start from", name, name)
		}
		return fmt.Sprintf("%s is no verb, which comes first\nhint: oxturn draw %s, or check, choose or watch in its "+
			"place", name, at)
	}
	return fmt.Sprintf("there is no verb %q%s\nhint: oxturn help lists them", name, didYouMean(name, verbNames()))
}

// nearFile returns the plain file beside a name that is not there, whose name
// is nearest to it; "" for none, or where the name is there.
func nearFile(name string) string {
	if _, err := os.Stat(name); err == nil {
		return ""
	}
	entries, _ := os.ReadDir(filepath.Dir(name)) // what cannot be read has nothing to suggest
	best, at := 3, ""
	for _, e := range entries {
		stem := len(e.Name()) - len(filepath.Ext(e.Name()))
		d := job.LettersApart(strings.ToLower(filepath.Base(name)), strings.ToLower(e.Name()))
		if e.Type().IsRegular() && d < best && 3*d <= stem {
			best, at = d, filepath.Join(filepath.Dir(name), e.Name())
		}
	}
	if at == "" && filepath.Ext(name) == "" {
		if info, err := os.Stat(name + ".toml"); err == nil && info.Mode().IsRegular() {
			return name + ".toml"
		}
	}
	return at
}

// printable keeps text of a file from steering the terminal: what is not
// meant to be seen is written as an escape.
func printable(s string) string {
	q := strconv.QuoteToGraphic(s)
	return strings.NewReplacer(`\"`, `"`, `\\`, `\`).Replace(q[1 : len(q)-1])
}
