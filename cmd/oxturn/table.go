package main

import (
	"fmt"
	"strings"
	"text/tabwriter"
)

// tellf prints a line of an answer.
func (c *console) tellf(format string, args ...any) {
	text := fmt.Sprintf(format, args...)
	lead := text[:len(text)-len(strings.TrimLeft(text, "\n "))]
	fmt.Fprintln(c.Out, lead+c.told(text[len(lead):]))
}

// A table is one of an answer, its cells to the right.
type table struct {
	*tabwriter.Writer
	c *console
}

// table begins a table, a line below what stands before it, with what its columns are called.
func (c *console) table(head ...string) *table {
	fmt.Fprintln(c.Out)
	t := &table{tabwriter.NewWriter(c.Out, 0, 0, 2, ' ', tabwriter.AlignRight), c}
	t.row(head...)
	return t
}

func (t *table) row(cells ...string) {
	fmt.Fprintln(t, strings.Join(t.c.tellEach(cells), "\t")+"\t") // what is lost of it, Flush says
}
