package edit

import (
	"fmt"

	"oxturn/layout/job/tree"
)

// A Table is a table of a job file as a form shows it.
type Table struct {
	Table  string `json:"table"` // the way to it
	Name   string `json:"name"`  // the last key of its header
	Line   int    `json:"line"`  // of its header, from 1; 0 of the file's own keys
	Fields []Held `json:"fields"`
}

// A Held is a key of a table with what is written for it.
type Held struct {
	Key   string `json:"key"`
	Value string `json:"value"` // as written
	Text  string `json:"text"`  // the same as a person types it: a text without its quotes
}

// Tables lists the tables of a file that have a header, in the order of the file,
// after the keys that stand before all of them.
func Tables(text string) ([]Table, error) {
	text = tree.WithStraightQuotes(text)
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return nil, err
	}
	l := lister{document: document{text, root}}
	l.table("", "", root)
	return l.tables, nil
}

type lister struct {
	document
	tables []Table
}

func (l *lister) table(way, name string, n *tree.Node) {
	p := Table{Table: way, Name: name, Fields: []Held{}}
	if n != l.root {
		p.Line = l.line(n.Span.Start)
	}
	for _, f := range n.Fields {
		if !l.headed(f) && f.Span.End > f.Span.Start {
			p.Fields = append(p.Fields, l.held(f))
		}
	}
	l.tables = append(l.tables, p)
	for _, f := range n.Fields {
		l.below(join(way, f.Name), f)
	}
}

// below lists a field that is a table with a header, or a list of them.
func (l *lister) below(way string, f *tree.Node) {
	switch {
	case !l.headed(f):
	case f.Kind == tree.Table:
		l.table(way, f.Name, f)
	default:
		for i, item := range f.Items {
			l.table(fmt.Sprintf("%s/%d", way, i), f.Name, item)
		}
	}
}

func (l *lister) held(f *tree.Node) Held {
	h := Held{Key: f.Name, Value: l.text[f.Span.Start:f.Span.End]}
	h.Text = h.Value
	if s, ok := f.Value.(string); ok {
		h.Text = s
	}
	return h
}

func (l *lister) line(at int) int {
	n := 1
	for i := range at {
		if l.text[i] == '\n' {
			n++
		}
	}
	return n
}

func join(way, name string) string {
	if way == "" {
		return name
	}
	return way + "/" + name
}
