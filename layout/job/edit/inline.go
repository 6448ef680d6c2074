package edit

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/job/tree"
)

// inItem writes a table as it stands in a list in one value.
func inItem(fields []Field) (string, error) {
	var out []string
	for _, f := range fields {
		if err := soundField(f.Key, f.Value); err != nil {
			return "", err
		}
		out = append(out, f.Key+" = "+f.Value)
	}
	return "{" + strings.Join(out, ", ") + "}", nil
}

// listed reports whether a node is a list of tables in one value.
func (d document) listed(n *tree.Node) bool {
	return n != nil && n.Kind == tree.Array && !d.headed(n) && d.text[n.Span.Start] == '[' &&
		!slices.ContainsFunc(n.Items, func(item *tree.Node) bool { return item.Kind != tree.Table })
}

// listOf is the list in one value that a way leads into; nil: it leads elsewhere.
func (d document) listOf(way string) *tree.Node {
	parent, last, found := cutLast(way)
	if n, err := d.table(parent); found && err == nil && d.listed(n) && last != "" {
		return n
	}
	return nil
}

func cutLast(way string) (parent, last string, found bool) {
	if i := strings.LastIndexByte(way, '/'); i >= 0 {
		return way[:i], way[i+1:], true
	}
	return "", way, false
}

// addItem puts one more table into such a list, on a line of its own where the others have one.
func (d document) addItem(list *tree.Node, fields []Field) (string, error) {
	item, err := inItem(fields)
	if err != nil {
		return "", err
	}
	if len(list.Items) == 0 {
		at := list.Span.Start + 1
		return d.text[:at] + item + d.text[at:], nil
	}
	last := list.Items[len(list.Items)-1]
	if start := d.lineStart(last.Span.Start); d.aloneOnLines(last) && d.lineEnd(last.Span.End) < list.Span.End {
		comma := ""
		if !d.commaAfter(last) {
			comma = ","
		}
		end := d.lineEnd(last.Span.End)
		return d.text[:last.Span.End] + comma + d.text[last.Span.End:end] + d.text[start:last.Span.Start] + item +
			",\n" + d.text[end:], nil
	}
	return d.text[:last.Span.End] + ", " + item + d.text[last.Span.End:], nil
}

func (d document) commaAfter(n *tree.Node) bool {
	return strings.HasPrefix(strings.TrimLeft(d.text[n.Span.End:], " \t"), ",")
}

// aloneOnLines reports whether nothing but blanks, a comma and a comment shares the lines of an item.
func (d document) aloneOnLines(n *tree.Node) bool {
	before := d.text[d.lineStart(n.Span.Start):n.Span.Start]
	after := strings.TrimSpace(d.text[n.Span.End:d.lineEnd(n.Span.End)])
	after = strings.TrimSpace(strings.TrimPrefix(after, ","))
	return strings.TrimSpace(before) == "" && (after == "" || after[0] == '#')
}

// setInItem writes a new key into a table that stands in one value.
func (d document) setInItem(n *tree.Node, key, value string) (string, error) {
	if strings.ContainsAny(value, "\n\r") {
		return "", fmt.Errorf("%s goes over several lines, and its table stands in one", key)
	}
	at, before := n.Span.Start+1, ""
	if len(n.Fields) > 0 {
		at, before = n.Fields[len(n.Fields)-1].Span.End, ", "
	}
	return d.text[:at] + before + key + " = " + value + d.text[at:], nil
}

// dropPart takes one of several out that stand in one value, with the comma that it leaves over.
// Spans are from where each begins to where it ends.
func (d document) dropPart(spans []tree.Range, i int) string {
	s := spans[i]
	switch {
	case i+1 < len(spans):
		return d.text[:s.Start] + d.text[spans[i+1].Start:]
	case i > 0:
		return d.text[:spans[i-1].End] + d.text[s.End:]
	}
	rest := d.text[s.End:]
	if after := strings.TrimLeft(rest, " \t\r\n"); strings.HasPrefix(after, ",") {
		rest = after[1:]
	}
	return d.text[:s.Start] + rest
}

// unsetInItem takes a key out of a table that stands in one value.
func (d document) unsetInItem(n, f *tree.Node) string {
	var spans []tree.Range
	for _, other := range n.Fields {
		spans = append(spans, tree.Range{Start: other.Key.Start, End: other.Span.End})
	}
	return d.dropPart(spans, slices.Index(n.Fields, f))
}

// dropItem takes a table out of a list in one value, with its lines where it has them to itself.
func (d document) dropItem(list, item *tree.Node) string {
	if d.aloneOnLines(item) && d.lineEnd(item.Span.End) <= list.Span.End {
		return d.text[:d.lineStart(item.Span.Start)] + d.text[d.lineEnd(item.Span.End):]
	}
	var spans []tree.Range
	for _, other := range list.Items {
		spans = append(spans, other.Span)
	}
	return d.dropPart(spans, slices.Index(list.Items, item))
}
