package job

import (
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"slices"
	"strconv"
	"strings"
)

// TakeStock puts what is in stock in the place of a job's cables, and opens the choice of
// every room: CSV with a row a kind of cable and a row of heads. Of a cable that the job
// has, id is enough; another has the figures of its label under the keys of [[cable]].
// count is how many there are, one where it is left out. A row's fault is reported at its line.
func (j *Job) TakeStock(name string, data []byte, report *Report) {
	report.AddSource(name, data)
	list := stock{job: j, name: name, data: data, report: report}
	cables := list.read()
	if len(cables) == 0 && report.Errors() == 0 {
		report.Errorf(Span{File: name}, "a row is such as: id,count", "no cable is in the list")
	}
	j.Cables = cables
	for i := range j.Rooms {
		r := &j.Rooms[i]
		r.Cables, r.Zones = nil, slices.Clone(r.Zones)
		for k := range r.Zones {
			r.Zones[k].Cables = nil
		}
	}
}

// A stock is a list of cables while it is read.
type stock struct {
	job    *Job
	name   string
	data   []byte
	report *Report
	heads  []string
}

func (s *stock) read() (out []Cable) {
	r := csv.NewReader(bytes.NewReader(bytes.TrimPrefix(s.data, []byte("\ufeff"))))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.Comment = -1, true, '#'
	for {
		row, err := r.Read()
		if errors.Is(err, io.EOF) {
			return out
		}
		var bad *csv.ParseError
		if errors.As(err, &bad) {
			s.errorf(bad.Line, "", "the list is not CSV: %v", bad.Err)
			return nil
		}
		line, _ := r.FieldPos(0)
		if s.heads == nil {
			if !s.readHeads(row, line) {
				return nil
			}
			continue
		}
		c, ok := s.cable(row, line)
		twice := ok && slices.ContainsFunc(out, func(o Cable) bool { return o.ID == c.ID })
		switch {
		case twice:
			s.errorf(line, "add up its count in one row", "cable %q is in the list twice", c.ID)
		case len(out) == maxItems:
			s.errorf(line, "split the list", "there are more than %d cables", maxItems)
			return nil
		case ok:
			out = append(out, c)
		}
	}
}

// errorf reports a fault of a line.
func (s *stock) errorf(line int, hint, format string, args ...any) {
	s.report.Errorf(s.line(line), hint, format, args...)
}

// line is the place of a whole line.
func (s *stock) line(n int) Span { return s.report.lineSpan(s.name, n) }

// countHead is the column of how many there are of a cable.
const countHead = "count"

func (s *stock) readHeads(row []string, line int) bool {
	var known []string
	for _, k := range catalogueSchema().children["cable"] {
		known = append(known, k.Name())
	}
	s.heads = []string{}
	for _, h := range row {
		h = strings.ToLower(strings.TrimSpace(h))
		if h != countHead && !slices.Contains(known, h) {
			s.errorf(line, "the columns are count and those of a cable: "+strings.Join(known, ", "),
				"there is no column %q",
				h)
			return false
		}
		s.heads = append(s.heads, h)
	}
	if !slices.Contains(s.heads, "id") {
		s.errorf(line, "the first row has the names of the columns, such as: id,count", "no column is called id")
		return false
	}
	return true
}

// cable reads a row.
func (s *stock) cable(row []string, line int) (c Cable, ok bool) {
	label, count, id := "", "1", ""
	for i, cell := range row {
		cell = strings.TrimSpace(cell)
		if i >= len(s.heads) || cell == "" {
			continue
		}
		switch head := s.heads[i]; head {
		case countHead:
			count = cell
		case "id":
			id = cell
		default:
			label += fmt.Sprintf("%s = %s\n", head, bareOrQuoted(cell))
		}
	}
	n, err := strconv.Atoi(count)
	switch known := s.job.Cable(id); {
	case id == "":
		s.errorf(line, "id is what its label or the job calls it", "a cable has no id")
		return c, false
	case err != nil || n < 0:
		s.errorf(line, "write a whole number", "%q is no count of cables", count)
		return c, false
	case label == "" && known == nil:
		s.errorf(line, "give its volts, watts, length and lead in columns of those names",
			"cable %q is not in the job, and nothing of its label is given", id)
		return c, false
	case label == "":
		c = *known
	default:
		if c, ok = s.labelled(id, label, line); !ok {
			return c, false
		}
	}
	c.Count = n
	return c, n > 0
}

// labelled reads a cable by its label, as a catalogue's is read; what is wrong with it is
// reported at its line.
func (s *stock) labelled(id, label string, line int) (Cable, bool) {
	own := &Report{}
	text := fmt.Sprintf("[[cable]]\nid = %q\n%s", id, label)
	rd, root := readFile(own, catalogueSchema(), s.name, []byte(text), s.job.Units)
	var found []Cable
	if root != nil {
		found = readCables(table{rd, root, ""}, nil)
	}
	for _, d := range own.Diagnostics() {
		s.report.Add(Diagnostic{Severity: d.Severity, ID: d.ID, Span: s.line(line), Message: d.Message, Hint: d.Hint})
	}
	if own.Errors() > 0 || len(found) != 1 {
		return Cable{}, false
	}
	found[0].Span = s.line(line)
	return found[0], true
}

// bareOrQuoted writes a cell as TOML: numbers as they are, all else as text.
func bareOrQuoted(cell string) string {
	if v, err := strconv.ParseFloat(cell, 64); err == nil {
		return strconv.FormatFloat(v, 'f', -1, 64)
	}
	return strconv.Quote(cell)
}
