package main

import (
	"slices"
	"strings"
)

// edit puts text in place of n bytes at off. Edits that put in text at the same
// place keep the order of rank.
type edit struct {
	off, n, rank int
	text         string
}

// edits are collected from the outer expression to the inner.
type edits []edit

func (e *edits) replace(off, n int, text string) { *e = append(*e, edit{off, n, len(*e), text}) }

// before opens an expression: outer ones come first.
func (e *edits) before(off int, text string) { e.replace(off, 0, text) }

// after closes an expression: inner ones come first, and all before what opens.
func (e *edits) after(off int, text string) {
	*e = append(*e, edit{off, 0, -1 - len(*e), text})
}

func (e edits) apply(text []byte) []byte {
	sorted := slices.Clone(e)
	slices.SortFunc(sorted, func(a, b edit) int {
		if a.off != b.off {
			return a.off - b.off
		}
		return a.rank - b.rank
	})
	var b strings.Builder
	at := 0
	for _, s := range sorted {
		b.Write(text[at:s.off])
		b.WriteString(s.text)
		at = s.off + s.n
	}
	b.Write(text[at:])
	return []byte(b.String())
}
