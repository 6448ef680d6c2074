package job

import (
	"slices"

	"oxturn/layout/job/tree"
)

// A Text is one that a file has, with where it is written, quotes and all.
type Text struct {
	Span  Span
	Value string
}

// TextsOf are all texts of a file of TOML, in its order; of one that is none, no text.
func TextsOf(file string, data []byte) (out []Text) {
	root, err := tree.Parse(data)
	if err != nil {
		return nil
	}
	var walk func(n *tree.Node)
	walk = func(n *tree.Node) {
		if s, is := n.Value.(string); is {
			out = append(out, Text{Span{file, n.Span.Start, n.Span.End}, s})
		}
		for _, below := range slices.Concat(n.Fields, n.Items) {
			walk(below)
		}
	}
	walk(root)
	return out
}
