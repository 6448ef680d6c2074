package main

import (
	"strings"
	"unicode/utf8"

	"oxturn/layout/pattern"
)

// factColumn is where the words of a fact stand in a line: after a word that says what they are about. A sign in
// the column before it marks the line.
const factColumn = 9

// numbered is what stands before a line of a numbered list.
var numbered = pattern.Of(`^\d+\. `)

// facts tells lines, those of a fact each with what they are about in a column as wide as the longest.
func (c *console) facts(lines []string) []string {
	out := make([]string, len(lines))
	about := make([]string, len(lines))
	wide := factColumn - 1
	for i, line := range lines {
		name, ok := c.aboutOf(line)
		if !ok {
			continue
		}
		about[i] = name
		wide = max(wide, utf8.RuneCountInString(name))
	}
	for i, line := range lines {
		if _, ok := c.aboutOf(line); !ok {
			number := numbered().FindString(line)
			out[i] = number + c.told(line[len(number):])
			continue
		}
		gap := strings.Repeat(" ", wide-utf8.RuneCountInString(about[i]))
		out[i] = about[i] + gap + line[factColumn-1:factColumn] + c.told(line[factColumn:])
	}
	return out
}

// aboutOf is what a line of a fact is about, told; false for another line.
func (c *console) aboutOf(line string) (string, bool) {
	if len(line) <= factColumn || !strings.Contains(" *", line[factColumn-1:factColumn]) {
		return "", false
	}
	about := strings.TrimRight(line[:factColumn-1], " ")
	return c.told(about), len(about) < factColumn-1 // else a text that goes on
}
