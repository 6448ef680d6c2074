package job

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"
	"unicode"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

// Limits of a job. They are far above any floor, and keep a file that is no
// job from taking long.
const (
	maxFile   = 1 << 20 // bytes
	maxRooms  = 200
	maxItems  = 500  // corners of an outline, cables
	maxThings = 100  // things of one sort in a room
	maxText   = 1000 // bytes of one text
	maxName   = 100  // letters of a name, which stands in tables and in the title block
)

// Read reads a job file and the catalogue it names. name is used in messages
// only; open reads the catalogue, by its name as the job file writes it, and
// may be nil. The job is nil when nothing useful could be read; with errors in
// the report, what could be read is there, but is not fit to plan from.
func Read(name string, data []byte, open func(name string) ([]byte, error)) (*Job, *Report) {
	return read(name, data, open, nil)
}

// read is Read that notes in asked, where that is not nil, the path of every key
// whose value is asked for.
func read(name string, data []byte, open func(name string) ([]byte, error), asked map[string]bool) (*Job, *Report) {
	report := &Report{}
	rd, root := readFile(report, jobSchema(), name, data, plane.NoUnits)
	if root == nil {
		return nil, report
	}
	rd.asked = asked
	top := table{rd, root, ""}
	j := &Job{File: name, Spans: topSpans(top)}
	readAllowed(top)
	top.whole("format") // held to its limits; a newer one was refused
	rd.warnOfNewer(data)
	j.readSettings(top)
	j.Cables = readCables(top, nil)
	j.readCatalogue(top, open)
	j.readPrices(top, open)
	j.readRooms(top)
	j.readAsLaid(top, open)
	j.checkCables(top)
	j.checkCircuits(top)
	return j, report
}

// readFile parses one file and checks it against the keys. The tree is nil
// when the file is not TOML or beyond the limits.
func readFile(report *Report, s schema, name string, data []byte, units plane.Units) (*reader, *tree.Node) {
	rd := newReader(report, s, name, data)
	rd.units = units
	if len(data) > maxFile {
		report.Errorf(Span{File: name}, "look whether this is the right file",
			"the file has %d bytes; a job file has %d at most", len(data), maxFile)
		return rd, nil
	}
	report.AddSource(name, data)
	if straight, first, ok := tree.StraightQuotes(data); ok {
		rd.report.Warnf("W009", rd.span(first), `phones have a setting that leaves quotes straight`,
			"curly quotes are read as straight ones")
		data = straight
	}
	root, err := tree.Parse(data)
	if err != nil {
		rd.mend(data)
		return rd, nil
	}
	rd.root = root
	if rd.newerFormat() {
		return rd, nil
	}
	rd.readUnits()
	rd.table(root, "")
	return rd, root
}

// Format is the version of the job file's format that is read. It grows by one when
// a key changes its meaning or goes; new keys may come without.
const Format = 1

// newerFormat refuses a file that says it is of a format to come, whatever else is in
// it: nobody knows what its keys mean.
func (rd *reader) newerFormat() bool {
	n := rd.root.Get("format")
	if n == nil {
		return false
	}
	v, ok := n.Value.(int64)
	if !ok || v <= Format {
		return false // held to its limits as any key
	}
	rd.report.Errorf(rd.span(n.Span), "take a newer oxturn; whoever sent the file has one",
		"this job file is of format %d, and this version reads format %d and older", v, Format)
	return true
}

// readUnits reads what a bare number means, before all others.
func (rd *reader) readUnits() {
	n := rd.root.Get("units")
	if n == nil {
		return
	}
	u, _ := n.Value.(string)
	if rd.units = unitsNamed(u); rd.units == plane.NoUnits {
		rd.units = plane.Millimetres // reported below; bare numbers need not be as well
	}
}

// mend reports all slips in the syntax of a file, and what is wrong with the
// keys of the rest.
func (rd *reader) mend(data []byte) {
	root, slips := tree.Mend(data, rd.schema.brackets)
	if rd.root = root; root != nil {
		rd.readUnits()
	}
	for _, s := range slips {
		k, known := rd.schema.byPath[join(s.Table, s.Key)]
		if !known && strings.HasPrefix(s.Hint, "write "+s.Key+" = ") && s.Bare {
			s.Hint = `put quotes round text, and round a length with its unit: "64 ft"`
		}
		if known && s.Key != "" && k.Type != TypeTable && k.Type != TypeTables {
			if value := rd.plainly(k, s); value != "" {
				s.Hint = "write " + s.Key + " = " + value
			} else if s.Value == "" || strings.HasPrefix(s.Hint, "write "+s.Key) {
				s.Hint = "write it like " + k.Example
			}
			switch {
			case s.Bare && k.Type == TypeFlag:
				s.Message = k.Name() + " is true or false, in small letters, not " + s.Value
			case s.Bare && (k.Type == TypeNumber || k.Type == TypeWhole):
				s.Message = fmt.Sprintf("%s is %s without a unit, not %s", k.Name(), describe(k.Type), s.Value)
			}
		}
		rd.report.Errorf(rd.span(s.Range), s.Hint, "%s", s.Message)
	}
	if root != nil {
		rd.table(root, "")
	}
}

// brackets returns with how many brackets on each side a header is written, 0
// for one that is not known.
func (s schema) brackets(path string) int {
	switch s.byPath[path].Type {
	case TypeTable:
		return 1
	case TypeTables:
		return 2
	}
	return 0
}

// warnOfNewer warns of what only the newest TOML allows.
func (rd *reader) warnOfNewer(data []byte) {
	for _, n := range tree.NewerThan10(data) {
		rd.report.Warnf("W007", rd.span(n.Range), n.Hint,
			"%s is TOML 1.1; editors and programs that know 1.0 refuse the file", n.What)
	}
}

func unitsNamed(s string) plane.Units {
	for _, u := range []plane.Units{plane.Millimetres, plane.Inches} {
		if strings.EqualFold(u.String(), strings.TrimSpace(s)) {
			return u
		}
	}
	return plane.NoUnits
}

// topSpans returns where the values of the single tables stand, by dotted
// path: "units", "membrane.pitch".
func topSpans(top table) Spans {
	out := top.spans()
	for _, f := range top.n.Fields {
		if f.Kind != tree.Table {
			continue
		}
		for key, s := range top.sub(f.Name).spans() {
			if key != "" {
				key = "." + key
			}
			out[f.Name+key] = s
		}
	}
	return out
}

// readCatalogue adds the cables of the file that catalogue names.
func (j *Job) readCatalogue(top table, open func(string) ([]byte, error)) {
	named := top.text("catalogue")
	if j.Catalogue = named; named == "" {
		return
	}
	if open == nil {
		top.errorf("catalogue", "put its [[cable]] tables into the job file", "the catalogue %q cannot be read here",
			named)
		return
	}
	data, err := open(named)
	if err != nil {
		err = reason(err)
		top.errorf("catalogue", fileHint(named), "cannot read the catalogue %q: %v", named, err)
		return
	}
	rd, root := readFile(top.rd.report, catalogueSchema(), besides(j.File, named), data, top.rd.units)
	if root != nil {
		rd.warnOfNewer(data)
		j.Cables = append(j.Cables, readCables(table{rd, root, ""}, j.Cables)...)
	}
}

// fileHint says where a file is looked for, or that its name is not what was
// typed.
func fileHint(named string) string {
	if strings.ContainsFunc(named, unicode.IsControl) {
		return `a backslash in double quotes begins an escape, as \n and \t do: put the name in single quotes, or ` +
			`write / for it`
	}
	return "the name is looked up from where the job file lies"
}

// reason leaves out of an error of opening a file what is said already.
func reason(err error) error {
	var pe *fs.PathError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("there is no such file")
	case errors.As(err, &pe):
		return pe.Err
	}
	return err
}

// besides names the catalogue in messages: by its path from where the user is.
func besides(job, named string) string {
	if filepath.IsAbs(named) {
		return named
	}
	return filepath.Join(filepath.Dir(job), named)
}

// catalogueKeys are the keys of a catalogue: cables, and what a bare number is.
func catalogueKeys() []Key {
	out := []Key{topKeys()[0]}
	for _, k := range cableKeys() {
		k.Required = k.Required && k.Path != "cable"
		out = append(out, k)
	}
	return out
}

// IsCatalogue reports whether a file is TOML that has cables and nothing else of a
// job.
func IsCatalogue(data []byte) bool {
	root, err := tree.Parse(data)
	if err != nil || root.Get("cable") == nil {
		return false
	}
	for _, f := range root.Fields {
		if f.Name != "cable" && f.Name != "units" {
			return false
		}
	}
	return true
}

// readRooms reads every room, up to the limit.
func (j *Job) readRooms(top table) {
	rooms := top.each("room")
	if len(rooms) == 0 && top.has("room") && !top.broken() {
		top.errorf("room", "add "+top.key("room").Example, "the job has no [[room]]")
	}
	if len(rooms) > maxRooms {
		top.errorf("room", "split the job into several files", "the job has %d rooms; %d are taken at most", len(rooms),
			maxRooms)
		rooms = rooms[:maxRooms]
	}
	names := namesSeen{}
	for _, t := range rooms {
		names.check(t, "name", t.text("name"), "room")
		j.Rooms = append(j.Rooms, j.readRoom(t))
	}
}

// namesSeen finds names used twice.
type namesSeen map[string]Span

// check reports a name that an earlier thing of the sort has.
func (s namesSeen) check(t table, key, name, what string) {
	if name == "" {
		return
	}
	if first, ok := s[name]; ok {
		t.with(key, fmt.Sprintf("give one of them another %s", key), []Note{{first, "the first is here"}},
			"two %ss are called %q", what, name)
		return
	}
	s[name] = t.at(key)
}
