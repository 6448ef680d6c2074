package main

import (
	"bytes"
	"context"
	"encoding/csv"
	"slices"
	"strings"
	"testing"
	"time"

	"oxturn/layout/language"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/takeoff"
)

// FuzzCSV puts any text in every cell of both tables: none is a formula, and
// all of it is read back.
func FuzzCSV(f *testing.F) {
	for _, s := range append(slices.Clone(hostile), "Bath", "\t=1", "\r\n=1", "a\n=1", "\"", "a\"b", ",", "-1", "＝1+1",
		"\ufeff=1", `\.`) {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		s = strings.ToValidUTF8(s, "?") // TOML is UTF-8, and a job with other bytes is not read
		var list, table bytes.Buffer
		if err := takeoff.WriteCSV(&list, takeoff.List{Lines: []takeoff.Line{{Code: s, Item: language.As(s),
			Basis: language.As(s), PackName: s,
			Note: language.As(s), Unit: "kg"}}}); err != nil {
			t.Fatal(err)
		}
		room := build.RoomOptions{Room: &job.Room{Name: s},
			Options: []build.Option{{Candidate: layout.Candidate{IDs: []string{s, s}, Why: s}}}}
		if err := optionsCSV(&table, []build.RoomOptions{room}, &job.Job{Membrane: job.Membrane{Pitch: 30}},
			lines); err != nil {
			t.Fatal(err)
		}
		if d := takeoff.Defuse(s); d != lines(s) && d != "'"+lines(s) {
			t.Errorf("%q is written as %q", s, d)
		}
		inspectCSV(t, s, list.Bytes())
		inspectCSV(t, s, table.Bytes())
		readBack(t, s, list.Bytes(), 5)
		readBack(t, s, table.Bytes(), 2)
	})
}

// lines is a text with its lines ended in one way.
func lines(s string) string {
	return strings.ReplaceAll(strings.ReplaceAll(s, "\r\n", "\n"), "\r", "\n")
}

// readBack wants a text in n cells.
func readBack(t *testing.T, s string, data []byte, n int) {
	t.Helper()
	want := takeoff.Defuse(s)
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		return // said by inspectCSV
	}
	found := 0
	for _, row := range rows[1:] {
		for _, cell := range row {
			if cell == want {
				found++
			}
		}
	}
	if found < n {
		t.Errorf("%q is read back %d times, want %d:\n%s", s, found, n, data)
	}
}

// furnished is the tiny job with one of most things a room may have.
const furnished = tinyJob + `height = 1200

[[room.fixture]]
kind = "vanity"
wall = "C"
from = 100
width = 450
depth = 300

[[room.opening]]
kind = "door"
wall = "A"
from = 50
width = 400
threshold = true

[[room.joint]]
from = [0, 950]
to = [1200, 950]

[[layer]]
kind = "tile"
thickness = 10

[[layer]]
kind = "membrane"
thickness = 5

[[layer]]
kind = "wood"
thickness = 18

[[as_laid]]
room = "Nook"
evidence = "measured by hand"
first_peg = [90, 90]
sensor = [300, 300]

[[as_laid.reading]]
stage = "on spool"
ohms = 119.0
`

// FuzzDraw takes any job file the whole way to every output: it is drawn, or
// refused with a reason; a fault of ours is never the answer.
func FuzzDraw(f *testing.F) {
	f.Add([]byte(tinyJob))
	f.Add([]byte(furnished))
	f.Fuzz(func(t *testing.T, data []byte) {
		s := source{name: "job.toml", base: "job", file: "job.toml", data: data}
		s.keepOpened(opener("../../testdata/laid/bath.toml"))
		w, err := do(context.Background(), s, workOptions{timeLimit: 4 * time.Second})
		if err != nil {
			t.Fatal(err)
		}
		if w.plan == nil {
			if w.report.Errors() == 0 {
				t.Fatal("no plan and no error")
			}
			return
		}
		files, err := outputs(w, kinds())
		if err != nil {
			t.Fatal(err)
		}
		if _, err := pageState(w); err != nil {
			t.Fatal(err)
		}
		if err := checkNames(files); err != nil {
			t.Error(err)
		}
	})
}
