// Package edit changes a job file as text, one value or one table at a time, so
// that its comments, its order and everything else in it stay as they are.
//
// A table is named by the way to it from the root, with the number of an item
// from 0: "room/0/fixture/2".
package edit

import (
	"fmt"
	"strconv"
	"strings"

	"oxturn/layout/job/tree"
)

// A Change is one edit. Its Value is TOML as it will stand in the file; Literal
// makes that from what a person types.
type Change struct {
	Do    string  `json:"do"`    // "set", "unset", "add" or "drop"
	Table string  `json:"table"` // the way to the table; of add, to the list or table that is added
	Key   string  `json:"key"`   // of set and unset
	Value string  `json:"value"` // of set
	Lines []Field `json:"lines"` // of add: what the new table holds
}

// A Field is a key and its value as they stand in the file.
type Field struct {
	Key   string `json:"key"`
	Value string `json:"value"`
}

// Apply makes the changes, one after the other, and returns the new text. An error
// says which could not be made; the text is then as it was.
func Apply(text string, changes []Change) (string, error) {
	now := tree.WithStraightQuotes(text)
	for i, c := range changes {
		next, err := apply(now, c)
		if err != nil {
			return text, fmt.Errorf("change %d, %s of %s: %w", i+1, c.Do, c.Table, err)
		}
		now = next
	}
	if _, err := tree.Parse([]byte(now)); err != nil {
		return text, fmt.Errorf("it is written in a way that only the text can change: %w", err)
	}
	return now, nil
}

func apply(text string, c Change) (string, error) {
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return "", fmt.Errorf("the file has to be mended first: %w", err)
	}
	d := document{text, root}
	switch c.Do {
	case "set":
		return d.set(c.Table, c.Key, c.Value)
	case "unset":
		return d.unset(c.Table, c.Key)
	case "add":
		return d.add(c.Table, c.Lines)
	case "drop":
		return d.drop(c.Table)
	}
	return "", fmt.Errorf("%q is no change; use set, unset, add or drop", c.Do)
}

// A document is a file with where everything in it stands.
type document struct {
	text string
	root *tree.Node
}

// table finds a table by the way to it.
func (d document) table(way string) (*tree.Node, error) {
	n := d.root
	for _, step := range steps(way) {
		next := n.Get(step)
		if i, err := strconv.Atoi(step); err == nil && n.Kind == tree.Array && i >= 0 && i < len(n.Items) {
			next = n.Items[i]
		}
		if next == nil {
			return nil, fmt.Errorf("there is no %s", way)
		}
		n = next
	}
	return n, nil
}

func steps(way string) []string {
	if way == "" {
		return nil
	}
	return strings.Split(way, "/")
}

// set writes a value in place of the old one, or on a line of its own behind the
// table's last.
func (d document) set(way, key, value string) (string, error) {
	if err := soundField(key, value); err != nil {
		return "", err
	}
	n, err := d.table(way)
	if err != nil {
		return "", err
	}
	if f := n.Get(key); f != nil {
		if d.headed(f) {
			return "", fmt.Errorf("%s is a table", key)
		}
		return d.text[:f.Span.Start] + value + d.text[f.Span.End:], nil
	}
	if n != d.root && !d.headed(n) {
		if n.Kind != tree.Table || d.text[n.Span.Start] != '{' {
			return "", fmt.Errorf("%s is no table", way)
		}
		return d.setInItem(n, key, value)
	}
	at := d.endOfOwn(n)
	return d.text[:at] + d.newlineBefore(at) + key + " = " + value + "\n" + d.text[at:], nil
}

// unset takes a key's lines out, with what is written behind it.
func (d document) unset(way, key string) (string, error) {
	n, err := d.table(way)
	if err != nil {
		return "", err
	}
	f := n.Get(key)
	if f == nil {
		return d.text, nil
	}
	if d.headed(f) {
		return "", fmt.Errorf("%s is a table", key)
	}
	if n != d.root && !d.headed(n) {
		return d.unsetInItem(n, f), nil
	}
	return d.text[:d.lineStart(f.Key.Start)] + d.text[d.lineEnd(f.Span.End):], nil
}

// add writes a new table behind the last one of its kind, or else behind all that
// belongs to the table it goes in.
func (d document) add(way string, fields []Field) (string, error) {
	all := steps(way)
	if len(all) == 0 {
		return "", fmt.Errorf("no table is named")
	}
	parent, err := d.table(strings.Join(all[:len(all)-1], "/"))
	if err != nil {
		return "", err
	}
	name := all[len(all)-1]
	at := d.endOfAll(parent)
	path := dotted(all)
	header := "[" + path + "]"
	if n := parent.Get(name); d.listed(n) {
		return d.addItem(n, fields)
	} else if n != nil && len(n.Items) > 0 {
		if at = d.endOfAll(n.Items[len(n.Items)-1]); !d.headed(n) {
			return "", fmt.Errorf("%s is written in one line; change it in the text", way)
		}
	} else if n != nil {
		return "", fmt.Errorf("%s is there already", way)
	}
	if !single(path) {
		header = "[" + header + "]"
	}
	var b strings.Builder
	b.WriteString(d.newlineBefore(at) + "\n" + header + "\n")
	for _, f := range fields {
		if err := soundField(f.Key, f.Value); err != nil {
			return "", err
		}
		fmt.Fprintf(&b, "%s = %s\n", f.Key, f.Value)
	}
	return d.text[:at] + b.String() + d.text[at:], nil
}

// drop takes a table out with all that belongs to it.
func (d document) drop(way string) (string, error) {
	n, err := d.table(way)
	if err != nil {
		return "", err
	}
	if list := d.listOf(way); list != nil && n.Kind == tree.Table {
		return d.dropItem(list, n), nil
	}
	if n == d.root || !d.headed(n) {
		return "", fmt.Errorf("%s is no table with a header of its own", way)
	}
	from, to := d.lineStart(n.Span.Start), d.endOfAll(n)
	for from > 0 && strings.HasPrefix(d.text[d.lineStart(from-1):], "\n") {
		from = d.lineStart(from - 1) // the empty lines before it go with it
	}
	return d.text[:from] + d.text[to:], nil
}
