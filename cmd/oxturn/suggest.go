package main

import (
	"fmt"
	"strconv"
	"strings"
)

// didYouMean names the nearest of the known words, if one is near.
func didYouMean(word string, known []string) string {
	best, at := 3, ""
	for _, k := range known {
		if d := distance(word, k); d < best && d < len(k) {
			best, at = d, k
		}
	}
	if at == "" {
		return ""
	}
	return fmt.Sprintf("; did you mean %q?", at)
}

// distance is the number of letters to change, add or drop between two words.
func distance(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		prev := row[0]
		row[0] = i + 1
		for j := range len(b) {
			cost := prev
			if a[i] != b[j] {
				cost = 1 + min(prev, row[j], row[j+1])
			}
			prev, row[j+1] = row[j+1], cost
		}
	}
	return row[len(b)]
}

// printable keeps text of a file from steering the terminal: what is not
// meant to be seen is written as an escape.
func printable(s string) string {
	q := strconv.QuoteToGraphic(s)
	return strings.NewReplacer(`\"`, `"`, `\\`, `\`).Replace(q[1 : len(q)-1])
}
