// Package tree reads TOML into a tree whose every key and value knows where in
// the file it stands. The TOML library decides what is TOML and what a value
// means; its positions are kept by dotted name without an index, so inside
// arrays of tables they are those of the last one. A scanner of our own finds
// the places, and both are laid together here.
package tree

import (
	"slices"

	"github.com/BurntSushi/toml"
)

// A Range is a stretch of bytes, End not included.
type Range struct{ Start, End int }

// Kind tells what a Node is.
type Kind int

// The kinds of node.
const (
	Value Kind = iota
	Table
	Array // of values, or of tables
)

// A Node is a value, a table or an array.
type Node struct {
	Name   string // the key it stands under, empty for items and the root
	Key    Range  // where that key is written; of an item, where its [[header]] is
	Span   Range  // the value; of a table with a header, the header
	Kind   Kind
	Value  any     // string, int64, float64, bool or time.Time; of a Value only
	Gap    bool    // what stands here could not be read, which has been said
	Fields []*Node // of a Table, in file order
	Items  []*Node // of an Array

	byName map[string]*Node
}

// Get returns a field of a table, nil where there is none.
func (n *Node) Get(name string) *Node {
	if n == nil {
		return nil
	}
	return n.byName[name]
}

// Rename gives a field of a table another name.
func (n *Node) Rename(f *Node, name string) {
	delete(n.byName, f.Name)
	f.Name, n.byName[name] = name, f
}

// Parse reads a file. The error, when there is one, is a *SyntaxError that
// says where it stops being TOML; Mend finds all there is wrong with it.
func Parse(data []byte) (*Node, error) {
	text, err := readable(data)
	if err != nil {
		return nil, err
	}
	values, _, err := decode(text)
	if err != nil {
		return nil, err
	}
	root, _ := scan(text)
	fill(root, values)
	return root, nil
}

// decode runs the TOML library. It gives up on some broken files by panicking.
func decode(text string) (values map[string]any, md toml.MetaData, err error) {
	defer func() {
		if recover() != nil {
			err = &SyntaxError{Message: "this is not TOML"}
		}
	}()
	md, err = toml.Decode(text, &values)
	if err != nil {
		return nil, md, syntaxError(text, err)
	}
	return values, md, nil
}

// fill puts the library's values into the scanned tree. Where the two differ
// in shape the library is right, and what it has lacks a place.
func fill(n *Node, v any) {
	switch v := v.(type) {
	case map[string]any:
		n.asTable()
		fillTable(n, v)
	case []map[string]any:
		items := make([]any, len(v))
		for i := range v {
			items[i] = v[i]
		}
		fillArray(n, items)
	case []any:
		fillArray(n, v)
	default:
		n.Kind, n.Value = Value, v
	}
}

func fillTable(n *Node, v map[string]any) {
	n.Fields = slices.DeleteFunc(n.Fields, func(f *Node) bool {
		_, ok := v[f.Name]
		return !ok
	})
	names := make([]string, 0, len(v))
	for name := range v {
		names = append(names, name)
	}
	slices.Sort(names)
	for _, name := range names {
		fill(n.field(name), v[name])
	}
}

func fillArray(n *Node, v []any) {
	n.Kind = Array
	for len(n.Items) < len(v) {
		n.Items = append(n.Items, &Node{})
	}
	n.Items = n.Items[:len(v)]
	for i := range v {
		fill(n.Items[i], v[i])
	}
}

func (n *Node) asTable() {
	n.Kind = Table
	if n.byName == nil {
		n.byName = map[string]*Node{}
	}
}

// field returns a field of a table, made when it is new.
func (n *Node) field(name string) *Node {
	n.asTable()
	f := n.byName[name]
	if f == nil {
		f = &Node{Name: name}
		n.byName[name] = f
		n.Fields = append(n.Fields, f)
	}
	return f
}
