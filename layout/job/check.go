package job

import (
	"fmt"
	"strings"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// A reader checks one file against the list of keys and keeps what its values
// were read as. Everything wrong goes to the report; reading goes on.
type reader struct {
	report *Report
	schema schema
	file   string
	text   string
	root   *tree.Node
	units  plane.Units
	values map[*tree.Node]any
	meant  map[string]bool     // paths of keys that are there, but misspelt
	broken map[*tree.Node]bool // tables in which something could not be read
	// how many lengths were written in feet and inches, and how many in metres
	imperial, metric int
	unitless         bool            // a bare number without units has been reported
	readAsOther      map[string]bool // words that have been said to be read as another
	asked            map[string]bool // paths of the keys whose values were asked for; nil: nobody wants to know
}

func newReader(report *Report, s schema, file string, data []byte) *reader {
	return &reader{report: report, schema: s, file: file, text: string(data),
		values: map[*tree.Node]any{}, broken: map[*tree.Node]bool{}, meant: map[string]bool{},
		readAsOther: map[string]bool{}}
}

// ask notes that a key's value is asked for.
func (rd *reader) ask(path, name string) {
	if rd.asked != nil {
		rd.asked[join(path, name)] = true
	}
}

func (rd *reader) span(r tree.Range) Span { return Span{rd.file, r.Start, r.End} }

// shownLetters of what was typed stand in a message.
const shownLetters = 40

// source returns a stretch of the file as written, shortened when long.
func (rd *reader) source(n *tree.Node) string {
	s := strings.Join(strings.Fields(rd.text[n.Span.Start:n.Span.End]), " ")
	if runes := []rune(s); len(runes) > shownLetters {
		s = string(runes[:shownLetters-1]) + "…"
	}
	return s
}

// table checks a table and all below it against the keys of a path.
func (rd *reader) table(n *tree.Node, path string) {
	misspelt, lost := map[string]bool{}, false
	for _, f := range n.Fields {
		k, ok := rd.schema.byPath[join(path, f.Name)]
		if to := rd.spelling(f.Name, path); !ok && to != "" && n.Get(to) == nil {
			rd.report.Warnf("W009", rd.span(f.Key), "did you mean "+to+"?", "%s is read as %s", f.Name, to)
			n.Rename(f, to)
			k, ok = rd.schema.byPath[join(path, to)]
		}
		switch {
		case f.Gap:
			rd.broken[n], lost = true, lost || !ok
		case !ok:
			meant := rd.unknown(f, path)
			misspelt[meant], rd.meant[join(path, meant)] = true, true
		case k.Type == TypeTable:
			rd.subTable(n, f, k)
		case k.Type == TypeTables:
			rd.subTables(n, f, k)
		default:
			rd.leaf(n, f, k)
		}
	}
	if !lost { // else what is missing may stand in the line that could not be read
		rd.missing(n, path, misspelt)
	}
}

func (rd *reader) subTable(parent, f *tree.Node, k Key) {
	if f.Kind != tree.Table {
		rd.broken[parent] = true
		what := "there is one of it at most"
		if f.Kind == tree.Value {
			what = "it is a table with keys of its own"
		}
		rd.report.Errorf(rd.span(f.Key), "write "+k.Example, "%s is written %s: %s", k.Path, k.Header(), what)
		return
	}
	rd.table(f, k.Path)
}

func (rd *reader) subTables(parent, f *tree.Node, k Key) {
	if f.Kind != tree.Array {
		rd.broken[parent] = true
		if f.Key == (tree.Range{}) && f.Kind == tree.Table {
			rd.orphan(f, k)
			return
		}
		rd.report.Errorf(rd.span(f.Key), "write "+k.Header()+", with two brackets on each side",
			"%s is written %s: there may be several", k.Path, k.Header())
		if f.Kind == tree.Table {
			rd.table(f, k.Path)
		}
		return
	}
	if n := len(f.Items); n > maxItems && k.Path != "room" && k.Path != "cable" { // those say their own
		rd.report.Errorf(rd.span(f.Key), "leave some out", "there are %d tables %s; %d are taken at most", n,
			k.Header(), maxItems)
		return
	}
	for _, item := range f.Items {
		if item.Kind != tree.Table {
			rd.broken[parent] = true
			rd.report.Errorf(rd.span(item.Span), "write "+k.Example,
				"an item of %s is a table with keys of its own, not %s", k.Path, kindOf(item))
			continue
		}
		rd.table(item, k.Path)
	}
}

// orphan reports tables such as [[room.fixture]] in a file that has no [[room]]
// of its own, at the first of them.
func (rd *reader) orphan(f *tree.Node, k Key) {
	if len(f.Fields) == 0 {
		return
	}
	child := f.Fields[0]
	at := child.Key
	if child.Kind == tree.Array && len(child.Items) > 0 {
		at = child.Items[0].Span
	}
	rd.report.Errorf(rd.span(at), "write "+k.Example+"\nabove this line",
		"%s belongs to a %s, and the file has none", join(k.Path, child.Name), k.Header())
}

// missing reports the required keys that a table does not have, but for those
// that it has misspelt.
func (rd *reader) missing(n *tree.Node, path string, misspelt map[string]bool) {
	for _, k := range rd.schema.children[path] {
		if !k.Required || n.Get(k.Name()) != nil || k.Unless != "" && n.Get(k.Unless) != nil {
			continue
		}
		rd.broken[n] = true
		at := rd.span(n.Span)
		switch {
		case misspelt[k.Name()]:
		case path == "":
			rd.report.Errorf(Span{File: rd.file}, "add "+k.Example, "the job has no %s", k.Header())
		case k.Type == TypeTable:
			rd.report.Errorf(at, "add "+k.Example, "%s has no %s", rd.called(n, path), k.Header())
		default:
			rd.report.Errorf(at, "add "+k.Example, "%s has no %s", rd.called(n, path), k.Name())
		}
	}
}

// called names a table in a message: its kind of thing and its name.
func (rd *reader) called(n *tree.Node, path string) string {
	what := strings.ReplaceAll(path[strings.LastIndexByte(path, '.')+1:], "_", "-")
	for _, key := range []string{"name", "id", "kind"} {
		if f := n.Get(key); f != nil {
			if s, ok := f.Value.(string); ok {
				return fmt.Sprintf("%s %q", what, s)
			}
		}
	}
	return what
}

// unknown reports a key that is not in the list, with where else it belongs or
// with the nearest that is, which it returns.
func (rd *reader) unknown(f *tree.Node, path string) (meant string) {
	where := "at the top of the file"
	if path != "" {
		where = "in " + rd.schema.byPath[path].Header()
	}
	hint, meant := rd.suggest(f.Name, path)
	if word, ok := f.Value.(string); ok && matWords[strings.TrimSuffix(strings.ToLower(word), "s")] {
		hint, meant = matHint, ""
	}
	rd.report.Errorf(rd.span(f.Key), hint, "unknown key %q %s", f.Name, where)
	return meant
}

func (rd *reader) suggest(name, path string) (hint, meant string) {
	if hint := rd.inOtherWords(name, path); hint != "" {
		return hint, ""
	}
	here := rd.schema.children[path]
	var names []string
	for _, k := range here {
		names = append(names, k.Name())
	}
	for _, k := range here {
		if (k.Type == TypeTable || k.Type == TypeTables) && (name == k.Name()+"s" || name+"s" == k.Name()) {
			return "did you mean " + k.Header() + "?", k.Name()
		}
	}
	var elsewhere []string
	for _, k := range rd.schema.byName[name] {
		if len(elsewhere) < 4 {
			elsewhere = append(elsewhere, rd.home(k, elsewhere == nil))
		}
	}
	if elsewhere != nil {
		return name + " belongs " + strings.Join(elsewhere, " or "), ""
	}
	if s := nearest(name, names); s != "" {
		return "did you mean " + s + "?", s
	}
	return "keys here: " + strings.Join(names, ", "), ""
}

// home says where a key stands, the first of several in full.
func (rd *reader) home(k Key, first bool) string {
	switch {
	case k.Type != TypeTable && k.Type != TypeTables:
	case first:
		return "in a header of its own, " + k.Header()
	default:
		return k.Header()
	}
	switch {
	case k.Parent() == "":
		return "at the top of the file, before the first [header]"
	}
	return "in " + rd.schema.byPath[k.Parent()].Header()
}
