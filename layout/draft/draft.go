// Package draft reads rooms as other programs and devices have them: walls in a table,
// drawings of the DXF kind, room scans of phones, and GeoJSON. What it reads is a draft:
// a job file to be held against a tape before anything is ordered from it.
//
// It is pure: bytes in, rooms and text out. Inside, lengths are millimetres, x east and y
// north.
package draft

import (
	"bytes"
	"encoding/json"
	"fmt"
	"path/filepath"
	"strings"

	"oxturn/layout/plane"
)

// A Room is one floor as a file has it.
type Room struct {
	Name     string
	Outline  plane.Ring // counter-clockwise, its least x and y at 0; empty where Walls has it
	Walls    []Wall     // as taped; nil: Outline has them
	Arcs     []Arc      // of the walls that are bent; Outline has their ends
	Openings []Opening
	// walls that stand within
	Partitions []Partition
	Fixtures   []Fixture
	KeepOuts   []KeepOut
}

// An Opening is a door, a window or a gap in a wall.
type Opening struct {
	Kind        string // "door", "opening", "window"
	Wall        int    // from 0
	From, Width float64
}

// A Partition is a wall that stands in a room, with its doors along it.
type Partition struct {
	plane.Segment
	Openings []Opening // their Wall says nothing
}

// A Fixture stands on the floor: against a wall, or where Wall is below 0 round At.
type Fixture struct {
	Kind         string // as job files have it
	Wall         int
	From         float64 // along the wall
	At           plane.Point
	Angle        float64 // degrees counter-clockwise
	Width, Depth float64
}

// A KeepOut is floor without cable: an outline, or a circle where Diameter is not 0.
type KeepOut struct {
	Name     string
	Outline  plane.Ring
	Rises    []float64 // of its sides that are bent, as Arc's; below 0 inwards; nil: none is
	At       plane.Point
	Diameter float64
}

// A Found is what a file holds.
type Found struct {
	Rooms   []Room
	Took    []string // what was read, in words
	Dropped []string // what was left out, and why
}

func (f *Found) took(format string, args ...any) {
	f.Took = append(f.Took, fmt.Sprintf(format, args...))
}

func (f *Found) dropped(format string, args ...any) {
	f.Dropped = append(f.Dropped, fmt.Sprintf(format, args...))
}

// Options are what a file may leave open.
type Options struct {
	Unit  string // of bare numbers, one of Units; empty: the file must say
	Layer string // of a drawing: the layer whose closed outlines are rooms; empty: the only one there is
}

// Units are those that a file's numbers may be in, and mm what they come to.
var (
	Units  = []string{"mm", "cm", "m", "in", "ft"}
	unitMM = map[string]float64{"mm": 1, "cm": 10, "m": 1000, "in": plane.Inch, "ft": 12 * plane.Inch}
)

// An Error is what is wrong with a file, and where.
type Error struct {
	Line, Column int // from 1; 0: not in one place
	Message      string
	Hint         string
	Layers       []string // to choose from, where that is what is wrong
}

// Error is the message without its line and hint, which the caller places.
func (e *Error) Error() string { return e.Message }

func at(line int, format string, args ...any) *Error {
	return &Error{Line: line, Message: fmt.Sprintf(format, args...)}
}

func (e *Error) hint(format string, args ...any) *Error {
	e.Hint = fmt.Sprintf(format, args...)
	return e
}

// Read reads a file of any kind that is known, told by its name's end, and where that says
// nothing by its content.
func Read(name string, data []byte, o Options) (*Found, *Error) {
	read, kind := readerOf(name, data)
	if read == nil {
		return nil, at(0, "this is none of the files that rooms are read from").
			hint("they are .csv, .dxf, .json of a room scan, and .geojson")
	}
	found, err := read(data, o)
	switch {
	case err != nil:
		return nil, err
	case len(found.Rooms) == 0:
		return nil, at(0, "no room is in this %s", kind)
	}
	return found, nil
}

type reader func([]byte, Options) (*Found, *Error)

func readerOf(name string, data []byte) (reader, string) {
	switch strings.ToLower(filepath.Ext(name)) {
	case ".csv", ".txt", ".tsv":
		return readTape, "table of walls"
	case ".dxf":
		return readDrawing, "drawing"
	case ".geojson":
		return readGeo, "GeoJSON"
	}
	var top struct {
		Type  string
		Walls json.RawMessage
	}
	trimmed := bytes.TrimLeft(data, "\ufeff \t\r\n")
	switch {
	case !bytes.HasPrefix(trimmed, []byte("{")):
		return nil, ""
	case json.Unmarshal(trimmed, &top) == nil && top.Walls == nil && top.Type != "":
		return readGeo, "GeoJSON"
	}
	return readScan, "room scan"
}

// parseJSON reads a document and says where it is broken.
func parseJSON(data []byte, into any) *Error {
	data = bytes.TrimPrefix(data, []byte("\ufeff"))
	err := json.Unmarshal(data, into)
	if err == nil {
		return nil
	}
	offset := int64(0)
	switch e := err.(type) {
	case *json.SyntaxError:
		offset = e.Offset
	case *json.UnmarshalTypeError:
		offset = e.Offset
	}
	before := data[:min(offset, int64(len(data)))]
	out := at(1+bytes.Count(before, []byte("\n")), "it cannot be read: %v", strings.TrimPrefix(err.Error(), "json: "))
	out.Column = max(1, len(before)-bytes.LastIndexByte(before, '\n')-1)
	return out
}
