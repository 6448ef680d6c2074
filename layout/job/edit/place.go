package edit

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/BurntSushi/toml"

	"oxturn/layout/job"
	"oxturn/layout/job/tree"
)

// headed reports whether a node is a table, or a list of tables, that is written
// under headers.
func (d document) headed(n *tree.Node) bool {
	if n.Kind == tree.Array {
		return len(n.Items) > 0 && d.headed(n.Items[0])
	}
	return n.Kind == tree.Table && n.Span.End > 0 && d.text[n.Span.Start] == '['
}

// endOfOwn is the end of the last line that is the table's own, below its header
// and before the tables in it.
func (d document) endOfOwn(n *tree.Node) int {
	end := n.Span.End
	if n == d.root {
		end = 0
	}
	for _, f := range n.Fields {
		if !d.headed(f) {
			end = max(end, f.Span.End)
		}
	}
	if end == 0 {
		return 0
	}
	return d.lineEnd(end)
}

// endOfAll is the end of the last line of a table with all the tables in it.
func (d document) endOfAll(n *tree.Node) int {
	if n == d.root {
		return len(d.text)
	}
	return d.lineEnd(d.lastByte(n))
}

func (d document) lastByte(n *tree.Node) int {
	end := n.Span.End
	for _, f := range append(n.Fields, n.Items...) {
		end = max(end, d.lastByte(f))
	}
	return end
}

func (d document) lineStart(at int) int { return strings.LastIndexByte(d.text[:at], '\n') + 1 }

// lineEnd is behind the line break of the line that at lies in.
func (d document) lineEnd(at int) int {
	if i := strings.IndexByte(d.text[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(d.text)
}

// newlineBefore is the line break that a file lacks whose last line is not ended.
func (d document) newlineBefore(at int) string {
	if at > 0 && d.text[at-1] != '\n' {
		return "\n"
	}
	return ""
}

// dotted is a way without its numbers, as a header has it.
func dotted(steps []string) string {
	var out []string
	for _, s := range steps {
		if _, err := strconv.Atoi(s); err != nil {
			out = append(out, s)
		}
	}
	return strings.Join(out, ".")
}

// single reports whether a header of this path may stand once only where it stands.
func single(path string) bool {
	for _, k := range job.Keys() {
		if k.Path == path {
			return k.Type == job.TypeTable
		}
	}
	return false
}

// soundField holds what goes into the file to one key and one value. In a list a
// value with a comment behind it ends nothing, and so gives itself away. Only lists may
// go over several lines.
func soundField(key, value string) error {
	var v, listed map[string]any
	md, err := toml.Decode(key+" = "+value, &v)
	_, asItem := toml.Decode(key+" = ["+value+"]", &listed)
	broken := strings.ContainsAny(value, "\n\r") && !(strings.HasPrefix(value, "[") && strings.HasSuffix(value, "]"))
	if err != nil || asItem != nil || len(v) != 1 || !md.IsDefined(key) || broken {
		return fmt.Errorf("%s = %s is no line of a job file", key, value)
	}
	return nil
}

// Literal is what a person types as a value of a job file: figures, true, false and
// lists as they are, all else in quotes.
func Literal(typed string) string {
	typed = strings.TrimSpace(typed)
	if soundField("x", typed) == nil && !strings.HasPrefix(typed, "{") {
		return typed
	}
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range typed {
		switch {
		case r == '"' || r == '\\':
			b.WriteByte('\\')
			b.WriteRune(r)
		case r < ' ' || r == '\x7f':
			fmt.Fprintf(&b, `\u%04X`, r)
		default:
			b.WriteRune(r)
		}
	}
	return b.String() + `"`
}
