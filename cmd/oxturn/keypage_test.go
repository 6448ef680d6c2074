package main

import (
	"fmt"
	"strings"

	"oxturn/layout/job"
)

const keyPageHead = `# The job file, key by key

A job file is [TOML](https://toml.io): ` + "`key = value`" + ` under ` + "`[table]`" + ` headers; a ` + "`[[table]]`" + ` may come any number of times.
Lengths are text with a unit (` + "`\"2.85 m\"`, `\"9ft 4-1/2in\"`" + `) or bare numbers in the file's ` + "`units`" + `; ` + "`oxturn help units`" + ` has the rest.
A star marks what must be given. Three complete jobs: [bath.toml](bath.toml) with its [catalogue](cables.toml),
[kitchen.toml](kitchen.toml), [entry.toml](entry.toml).

This page is made from the list by which jobs are read, as are ` + "`oxturn help job-file`" + ` and the schema for editors.

`

// keyPageText is the reference of the job file that lies beside the examples: a
// list of the tables, then a section for each.
func keyPageText(keys []job.Key) string {
	var b strings.Builder
	b.WriteString(keyPageHead + "| Table | |\n|---|---|\n")
	fmt.Fprintf(&b, "| [the top of the file](#top) | %s |\n", "what holds for the whole file")
	for _, k := range keys {
		if isTable(k) {
			fmt.Fprintf(&b, "| [`%s`](#%s)%s | %s |\n", k.Header(), anchor(k.Path), star(k), cell(k.Doc))
		}
	}
	b.WriteString(keySection("top", "The top of the file", "", keys))
	for _, k := range keys {
		if isTable(k) {
			text := k.Doc + ".\n\n"
			if k.Example != k.Header() {
				text += "```toml\n" + k.Example + "\n```\n\n"
			}
			b.WriteString(keySection(k.Path, "`"+k.Header()+"`"+star(k), text, keys))
		}
	}
	return b.String()
}

// keySection lists what one table holds besides further tables.
func keySection(path, title, text string, keys []job.Key) string {
	var b strings.Builder
	fmt.Fprintf(&b, "\n<a id=%q></a>\n\n## %s\n\n%s| Key | Value | What it is | Left out | Example "+
		"|\n|---|---|---|---|---|\n", anchor(path), title, text)
	if path == "top" {
		path = ""
	}
	for _, k := range keys {
		if k.Parent() == path && !isTable(k) {
			fmt.Fprintf(&b, "| `%s`%s | %s | %s | %s | `%s` |\n", k.Name(), star(k), cell(valueWords(k)+taken(k)),
				cell(k.Doc), cell(otherwise(k)), cell(lastLine(k.Example)))
		}
	}
	return b.String()
}

// anchor is a name that a link on the page leads to.
func anchor(path string) string { return strings.NewReplacer(".", "-", "_", "-").Replace(path) }

// cell keeps text within a cell of a table.
func cell(s string) string { return strings.NewReplacer("|", `\|`, "\n", " ").Replace(s) }

// otherwise is what holds when a key is left out.
func otherwise(k job.Key) string {
	if k.Default != "" {
		return "`" + strings.ReplaceAll(k.DefaultWords(), "; in a job in inches ", "`; in a job in inches `") + "`"
	}
	return k.Otherwise
}

// taken says between what a key's figures are taken.
func taken(k job.Key) string {
	if words := job.Plausible(k.Path); words != "" {
		return ", " + words
	}
	return ""
}

// valueWords says what a key takes.
func valueWords(k job.Key) string {
	words := map[job.Type]string{
		job.TypeWhole: "whole number", job.TypeFlag: "true or false", job.TypePoint: "point `[x, y]`",
		job.TypePoints: "list of points", job.TypePixel: "pixel `[x, y]`", job.TypePixels: "list of pixels",
		job.TypePlace: "point, or wall and length", job.TypeSize: "two lengths", job.TypeShares: "two shares",
		job.TypeTexts: "list of texts", job.TypeLengths: "list of lengths",
		job.TypeDensity: "power per area", job.TypeTransmittance: "U-value", job.TypePack: "quantity with its unit",
		job.TypeReading: "reading",
	}
	if k.Type == job.TypeChoice || k.Type == job.TypeChoices {
		return "`\"" + strings.Join(k.Values, "\"` `\"") + "\"`"
	}
	if w, ok := words[k.Type]; ok {
		return w
	}
	return string(k.Type)
}
