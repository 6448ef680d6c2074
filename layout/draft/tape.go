package draft

import (
	"bytes"
	"encoding/csv"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode/utf8"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A table of walls has a row a wall: where it goes, and how long it is. Its columns are
// named in the first row, or are direction and length. A direction is a compass word or a
// bearing; "left", "right" or degrees are turns from the wall before.
var columnNames = map[string]string{
	"direction": "direction", "bearing": "direction", "dir": "direction", "way": "direction", "heading": "direction",
	"turn": "direction", "length": "length", "distance": "length", "dist": "length", "len": "length",
	"room": "room", "wall": "wall", "name": "wall", "from": "wall", "to": "wall",
}

// A tapeTable is where a table's columns stand, -1 where it has none, and what its
// lengths are in.
type tapeTable struct {
	direction, length, room int
	turns                   bool   // directions are turns from the wall before
	unit                    string // of lengths without one; empty: each has its own
}

func readTape(data []byte, o Options) (*Found, *Error) {
	rows, lines, err := tableRows(data)
	if err != nil || len(rows) == 0 {
		return &Found{}, err
	}
	t := tapeTable{direction: 0, length: 1, room: -1, unit: o.Unit}
	switch {
	case isHead(rows[0]):
		if err := t.readHead(rows[0], lines[0]); err != nil {
			return nil, err
		}
		rows, lines = rows[1:], lines[1:]
	case len(rows[0]) == 1:
		t.direction, t.length = -1, 0
	}
	return t.rooms(rows, lines)
}

// tableRows splits a table at semicolons, tabs or commas, whichever its first line has,
// and leaves out empty lines.
func tableRows(data []byte) (rows [][]string, lines []int, _ *Error) {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	if !utf8.Valid(data) {
		return nil, nil, at(0, "it is not UTF-8 text").hint("save it as CSV in UTF-8")
	}
	r := csv.NewReader(bytes.NewReader(data))
	r.FieldsPerRecord, r.TrimLeadingSpace, r.LazyQuotes, r.Comment = -1, true, true, '#'
	first, _, _ := bytes.Cut(data, []byte("\n"))
	for _, comma := range ",\t;" {
		if bytes.ContainsRune(first, comma) {
			r.Comma = comma
		}
	}
	for {
		row, err := r.Read()
		var bad *csv.ParseError
		switch {
		case errors.Is(err, io.EOF):
			return rows, lines, nil
		case errors.As(err, &bad):
			return nil, nil, at(bad.Line, "it is no table of commas, semicolons or tabs")
		case err != nil:
			return nil, nil, at(0, "%v", err)
		}
		if line, _ := r.FieldPos(0); strings.TrimSpace(strings.Join(row, "")) != "" {
			rows, lines = append(rows, row), append(lines, line)
		}
	}
}

// headWord splits a column's name from the unit that stands with it: "length (m)".
func headWord(cell string) (word, unit string) {
	cell = strings.ToLower(strings.TrimSpace(cell))
	cut := strings.IndexAny(cell, " _([/")
	if cut < 0 {
		return cell, ""
	}
	return cell[:cut], strings.Trim(cell[cut:], " _()[]/")
}

func isHead(row []string) bool {
	return slices.ContainsFunc(row, func(cell string) bool {
		word, _ := headWord(cell)
		return columnNames[word] != ""
	})
}

func (t *tapeTable) readHead(row []string, line int) *Error {
	t.direction, t.length = -1, -1
	for i, cell := range row {
		word, unit := headWord(cell)
		switch columnNames[word] {
		case "direction":
			t.direction, t.turns = i, word == "turn"
		case "room":
			t.room = i
		case "length":
			if unit != "" && !slices.Contains(Units, unit) {
				return at(line, "the unit %q of the lengths is not known", unit).hint("mm, cm, m, in and ft are")
			}
			if t.length = i; unit != "" {
				t.unit = unit
			}
		}
	}
	if t.length < 0 {
		return at(line, "no column is called length").
			hint("name the columns direction and length, and room where there are several")
	}
	return nil
}

// cell is what a row has in a column; empty where it has none.
func (t *tapeTable) cell(row []string, column int) string {
	if column < 0 || column >= len(row) {
		return ""
	}
	return strings.TrimSpace(row[column])
}

// rooms lays the rows of each room end to end.
func (t *tapeTable) rooms(rows [][]string, lines []int) (*Found, *Error) {
	f := &Found{}
	for len(rows) > 0 {
		name, n := t.cell(rows[0], t.room), 1
		for n < len(rows) && (t.cell(rows[n], t.room) == "" || t.cell(rows[n], t.room) == name) {
			n++
		}
		r, err := t.readRoom(name, rows[:n], lines[:n])
		if err != nil {
			return nil, err
		}
		f.Rooms = append(f.Rooms, r)
		f.took("%d walls%s, as they were taped", len(r.Walls), of(name))
		rows, lines = rows[n:], lines[n:]
	}
	return f, nil
}

// of names a room behind what is said of it.
func of(name string) string {
	if name == "" {
		return ""
	}
	return " of " + name
}

// fourSides are the directions of a table of four bare lengths.
var fourSides = []string{"east", "north", "west", "south"}

func (t *tapeTable) readRoom(name string, rows [][]string, lines []int) (Room, *Error) {
	r := Room{Name: name}
	before := NoWall
	for i, row := range rows {
		way := t.cell(row, t.direction)
		if t.direction < 0 && len(rows) == len(fourSides) {
			way = fourSides[i]
		}
		if t.turns && way == "" { // its figure is no turn
			if way = "left"; i == 0 {
				way = "east"
			}
		}
		typed := way + " " + t.cell(row, t.length) + t.unitOf(t.cell(row, t.length))
		wall, err := ReadWall(typed, before, t.turns, plane.NoUnits)
		if err != nil {
			err.Line = lines[i]
			return r, err
		}
		before = wall
		r.Walls = append(r.Walls, wall)
	}
	return r, nil
}

// unitOf is the unit to write behind a length: that of its column, where it has none.
func (t *tapeTable) unitOf(length string) string {
	if figure, err := plane.PointForComma(length); err == nil {
		length = figure
	}
	if _, err := strconv.ParseFloat(length, 64); err != nil || t.unit == "" {
		return ""
	}
	return " " + t.unit
}

// A Wall is one wall as it was taped.
type Wall struct {
	Bearing float64 // degrees clockwise from north
	Length  float64 // mm
}

// NoWall is what goes before the first one.
var NoWall = Wall{Bearing: math.NaN()}

// Typed writes a wall as job files have it, its length in the units given.
func (w Wall) Typed(units plane.Units) string {
	way := job.Wind(w.Bearing)
	if math.Mod(w.Bearing, job.WindApart) != 0 {
		way = say.Plain(w.Bearing) + "deg"
	}
	if units == plane.Inches {
		return way + " " + strings.NewReplacer("'-", "ft ", `"`, "in").Replace(plane.FormatFeetInches(w.Length))
	}
	return way + " " + say.TrimFigure(w.Length) + " mm"
}

// ReadWall reads a wall as it is typed: a direction or a turn, and a length, in the units
// given where it has none. Left and right are turns from the wall before, or NoWall; so are
// degrees where turns is set, to the left where negative. A length alone turns left.
func ReadWall(typed string, before Wall, turns bool, units plane.Units) (Wall, *Error) {
	typed = strings.TrimSpace(typed)
	turn, rest, isTurn := cutTurn(typed, turns)
	bearing := 0.0
	if !isTurn {
		var ok bool
		if bearing, rest, ok = job.CutBearing(typed); !ok {
			turn, rest, isTurn = -90, typed, true
		}
	}
	if isTurn && math.IsNaN(before.Bearing) {
		return Wall{}, at(0, "%q has no direction to go from", typed).
			hint("begin with a compass word: \"east 2.85 m\"")
	}
	if isTurn {
		bearing = math.Mod(before.Bearing+turn+720, 360)
	}
	mm, err := plane.ParseLength(rest, units)
	if err != nil {
		return Wall{}, at(0, "wall %q: %v", typed, err).
			hint("a wall is typed like \"east 2.85 m\" or \"left 3ft 2in\"")
	}
	w := Wall{bearing, mm}
	if t := job.TapeOf([]string{w.Typed(plane.Millimetres)}, plane.Millimetres); t.Slips[0] != "" {
		return Wall{}, at(0, "%s", t.Slips[0])
	}
	return w, nil
}

// cutTurn splits a turn off the head of a wall: left, right, on, or degrees to the right
// where they are turns.
func cutTurn(typed string, degrees bool) (turn float64, rest string, ok bool) {
	word, rest, _ := strings.Cut(typed, " ")
	switch strings.ToLower(word) {
	case "left", "l":
		return -90, rest, true
	case "right", "r":
		return 90, rest, true
	case "on", "straight":
		return 0, rest, true
	}
	v, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimSuffix(word, "deg"), "°"), 64)
	return v, rest, degrees && err == nil && math.Abs(v) <= 360
}

// TapeOf lays walls end to end, as job files do.
func TapeOf(walls []Wall) job.Tape {
	var typed []string
	for _, w := range walls {
		typed = append(typed, w.Typed(plane.Millimetres))
	}
	return job.TapeOf(typed, plane.Millimetres)
}
