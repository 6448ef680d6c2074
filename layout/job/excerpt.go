package job

import (
	"fmt"
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// excerptWidth is how many terminal cells of a source line are shown.
const excerptWidth = 100

// tabWidth is how many cells a tab is shown as.
const tabWidth = 4

// A cell is one rune of a source line as shown, with its width on a terminal:
// 0 for a mark over the rune before it, 2 for a wide one.
type cell struct {
	text   string
	width  int
	marked bool
}

// excerpt writes the source line of a span with a caret under it. Of a span
// over several lines the first is shown.
func (p *printer) excerpt(s Span, code string) {
	src := p.r.sources[s.File]
	if src == nil || s.End == 0 {
		return
	}
	at := p.r.Position(s.File, s.Start)
	line, column := shortened(src.line(at.Line), at.Column)
	cells, from := cellsOf(line, column, s)
	cells, cut := window(cells, from)
	number := fmt.Sprintf("%5d | ", at.Line)
	p.b.WriteString(strings.TrimRight(number+textOf(cells, cut), " ") + "\n")
	p.b.WriteString("      | " + p.ink(code, carets(cells)) + "\n")
}

// shortened cuts a line of any length down to what may be shown of it, some more
// than the window takes, and returns where a column then is.
func shortened(line string, column int) (string, int) {
	const reach = 4 * excerptWidth
	n, start, end, at := 0, 0, len(line), column
	for i := range line {
		switch n++; n {
		case column - reach:
			start, at = i, reach+1
		case column + reach:
			end = i
		}
	}
	return line[start:end], at
}

// cellsOf splits a line into cells, marks those of the span and returns the
// index of the first marked one. A span at the line's end gets a blank cell.
func cellsOf(line string, column int, s Span) ([]cell, int) {
	var cells []cell
	from, n := -1, 0
	length := max(1, s.End-s.Start)
	marked := 0
	for _, r := range line {
		n++
		c := cellOf(r)
		if n >= column && marked < length {
			c.marked = true
			marked += len(string(r))
			if from < 0 {
				from = len(cells)
			}
		}
		cells = append(cells, c)
	}
	if from < 0 {
		from = len(cells)
		cells = append(cells, cell{" ", 1, true})
	}
	return cells, from
}

func cellOf(r rune) cell {
	switch {
	case r == '\t':
		return cell{strings.Repeat(" ", tabWidth), tabWidth, false}
	case unicode.In(r, unicode.Mn, unicode.Me):
		return cell{string(r), 0, false}
	}
	text := Clean(string(r))
	switch width.LookupRune(r).Kind() {
	case width.EastAsianWide, width.EastAsianFullwidth:
		return cell{text, 2, false}
	}
	return cell{text, 1, false}
}

// window cuts a long line down to what stands round the mark. cut tells what
// was left out.
func window(cells []cell, from int) (shown []cell, cut cutEnds) {
	total := 0
	for _, c := range cells {
		total += c.width
	}
	if total <= excerptWidth {
		return cells, cut
	}
	start, room := from, excerptWidth/3
	for start > 0 && room > 0 {
		start--
		room -= cells[start].width
	}
	end, used := start, 0
	for end < len(cells) && used < excerptWidth {
		used += cells[end].width
		end++
	}
	return cells[start:end], cutEnds{start > 0, end < len(cells)}
}

// cutEnds tells whether something is left out before or after what is shown.
type cutEnds struct{ before, after bool }

func textOf(cells []cell, cut cutEnds) string {
	var b strings.Builder
	for i, c := range cells {
		switch {
		case cut.before && i == 0, cut.after && i == len(cells)-1:
			b.WriteString("…" + strings.Repeat(" ", max(0, c.width-1)))
		default:
			b.WriteString(c.text)
		}
	}
	return b.String()
}

func carets(cells []cell) string {
	var b strings.Builder
	for _, c := range cells {
		mark := " "
		if c.marked {
			mark = "^"
		}
		b.WriteString(strings.Repeat(mark, c.width))
	}
	return strings.TrimRight(b.String(), " ")
}
