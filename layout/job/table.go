package job

import (
	"bytes"
	"fmt"
	"strings"
	"time"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A table gives the values of one table of a file that has been checked. What
// is left out, or could not be read, has the default of the list of keys, or
// else the zero value.
type table struct {
	rd   *reader
	n    *tree.Node // nil: the file has no such table
	path string
}

// sub returns a table inside t.
func (t table) sub(name string) table {
	t.rd.ask(t.path, name)
	n := t.n.Get(name)
	if n != nil && n.Kind != tree.Table {
		n = nil
	}
	return table{t.rd, n, join(t.path, name)}
}

// each returns the tables of an array inside t.
func (t table) each(name string) []table {
	t.rd.ask(t.path, name)
	n := t.n.Get(name)
	if n == nil || n.Kind != tree.Array {
		return nil
	}
	var out []table
	for _, it := range n.Items {
		if it.Kind == tree.Table {
			out = append(out, table{t.rd, it, join(t.path, name)})
		}
	}
	return out
}

// has reports whether the file gives a key, well or badly.
func (t table) has(name string) bool { return t.n.Get(name) != nil }

// readable reports whether the file gives a key and what it gives was read.
func (t table) readable(name string) bool {
	n := t.n.Get(name)
	_, ok := t.rd.values[n]
	return n != nil && ok
}

// broken reports whether anything in the table could not be read; what would
// be said about it further on may then be wrong.
func (t table) broken() bool { return t.n != nil && t.rd.broken[t.n] }

// spoil marks the table so that no more is said about it.
func (t table) spoil() { t.rd.broken[t.n] = true }

// span returns where the table begins: its header.
func (t table) span() Span {
	if t.n == nil {
		return Span{File: t.rd.file}
	}
	return t.rd.span(t.n.Span)
}

// at returns where a key's value stands, or where the table begins.
func (t table) at(name string) Span {
	if n := t.n.Get(name); n != nil {
		return t.rd.span(n.Span)
	}
	return t.span()
}

// atItem returns where an item of an array stands.
func (t table) atItem(name string, i int) Span {
	if n := t.n.Get(name); n != nil && i < len(n.Items) {
		return t.rd.span(n.Items[i].Span)
	}
	return t.at(name)
}

// spans returns where each value of the table stands.
func (t table) spans() Spans {
	s := Spans{"": t.span()}
	if t.n != nil {
		for _, f := range t.n.Fields {
			s[f.Name] = t.rd.span(f.Span)
		}
	}
	return s
}

// source tells whether a value is the file's or a default.
func (t table) source(name string) Source {
	if t.has(name) {
		return FromJob
	}
	return FromDefault
}

// value returns a key's value, or its default.
func value[T any](t table, name string) T {
	t.rd.ask(t.path, name)
	if n := t.n.Get(name); n != nil {
		if v, ok := t.rd.values[n].(T); ok {
			return v
		}
	}
	path := join(t.path, name)
	if v, ok := t.rd.schema.inInches[path].(T); ok && t.rd.drawingUnits() == plane.Inches {
		return v
	}
	v, _ := t.rd.schema.presets[path].(T)
	return v
}

// parsePresets reads the defaults that keys have as if a file in millimetres said them: one file
// of all, since each for itself takes longer.
func parsePresets(keys []Key, of func(Key) string) map[string]any {
	var text bytes.Buffer
	for i, k := range keys {
		if of(k) != "" {
			fmt.Fprintf(&text, "v%d = %s\n", i, of(k))
		}
	}
	out := map[string]any{}
	root, err := tree.Parse(text.Bytes())
	if err != nil {
		return out
	}
	rd := newReader(&Report{}, schema{}, "", text.Bytes())
	rd.units = plane.Millimetres
	for i, k := range keys {
		if of(k) == "" {
			continue
		}
		if v, bad := rd.parse(root.Get(fmt.Sprintf("v%d", i)), k); bad == nil {
			out[k.Path] = v
		}
	}
	return out
}

// spoken is a choice as the file has it, in small letters: a sink is called one on the
// drawings, though it is read as a vanity.
func (t table) spoken(name string) string {
	read := t.text(name)
	if n := t.n.Get(name); n != nil && read != "" {
		if s, ok := n.Value.(string); ok {
			return strings.ToLower(strings.TrimSpace(s))
		}
	}
	return read
}

func (t table) num(name string) float64          { return value[float64](t, name) }
func (t table) whole(name string) int            { return int(value[float64](t, name)) }
func (t table) text(name string) string          { return value[string](t, name) }
func (t table) texts(name string) []string       { return value[[]string](t, name) }
func (t table) flag(name string) bool            { return value[bool](t, name) }
func (t table) date(name string) time.Time       { return value[time.Time](t, name) }
func (t table) point(name string) plane.Point    { return value[plane.Point](t, name) }
func (t table) points(name string) []plane.Point { return value[[]plane.Point](t, name) }
func (t table) lengths(name string) []float64    { return value[[]float64](t, name) }
func (t table) pair(name string) [2]float64      { return value[[2]float64](t, name) }
func (t table) pack(name string) pack            { return value[pack](t, name) }
func (t table) key(name string) Key              { return t.rd.schema.byPath[join(t.path, name)] }

// numOr returns a key's number, or another where the file does not give it.
func (t table) numOr(name string, other float64) float64 {
	if t.has(name) {
		return t.num(name)
	}
	return other
}

func (t table) flagOr(name string, other bool) bool {
	if t.has(name) {
		return t.flag(name)
	}
	return other
}

// top returns the whole file.
func (t table) top() table { return table{t.rd, t.rd.root, ""} }

// errorf reports an error at a key's value, or at the table's header.
func (t table) errorf(name, hint, format string, args ...any) {
	t.rd.report.Errorf(t.at(name), hint, format, args...)
}

// with reports an error that a second place has part in.
func (t table) with(name, hint string, notes []Note, format string, args ...any) {
	t.rd.report.Add(Diagnostic{Span: t.at(name), Hint: hint, Notes: notes, Message: fmt.Sprintf(format, args...)})
}

// length writes a length for a message, in the job's units and in mm.
func (t table) length(mm float64) string { return t.rd.say(mm) }

func (rd *reader) say(mm float64) string {
	if rd.drawingUnits() == plane.Inches {
		return fmt.Sprintf("%s (%s mm)", plane.FormatFeetInches(mm), plane.FormatLength(mm, plane.Millimetres))
	}
	return say.TrimFigure(mm) + " mm"
}

// read quotes a length as written, with what it was read as.
func (t table) read(name string) string {
	n := t.n.Get(name)
	if n == nil {
		return t.length(t.num(name)) + " (default)"
	}
	return t.rd.readAs(n, t.key(name), t.num(name))
}
