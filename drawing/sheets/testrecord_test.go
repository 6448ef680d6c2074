package sheets

import (
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// stageGap is how far apart on paper two stages of a record stand, mm.
func stageGap(t *testing.T, s *drawing.Sheet) float64 {
	t.Helper()
	var ys []float64
	for _, x := range s.Texts() {
		if x.Text == "0 on the spool" || strings.HasPrefix(x.Text, "1 laid") {
			ys = append(ys, x.At.Y)
		}
	}
	if len(ys) != 2 {
		t.Fatalf("%s: stages at %v", s.ID, ys)
	}
	return ys[1] - ys[0]
}

// TestRecordCanBeWrittenIn: on every paper the rows leave room for handwriting,
// which takes 7 mm (the ruling of ordinary writing paper, from memory), and
// large paper is not left white below small rows.
func TestRecordCanBeWrittenIn(t *testing.T) {
	for _, c := range []struct {
		size, on string
		units    plane.Units
		sheets   int
		least    float64
	}{
		{"", "A4", plane.Millimetres, 2, 7}, {"", "letter", plane.Inches, 2, 7}, {"A4", "A4", plane.Inches, 2, 7},
		{"A3", "A3", plane.Millimetres, 1, 10}, {"tabloid", "tabloid", plane.Inches, 1, 10},
		{"A2", "A2", plane.Millimetres, 1, 14}, {"arch C", "arch C", plane.Inches, 1, 14},
	} {
		p := samplePlan(t, c.units)
		p.Job.Sheet.Size = c.size
		pages, err := testRecord(p, &p.Rooms[0], &p.Rooms[0].Cables[0])
		if err != nil {
			t.Fatal(err)
		}
		if len(pages) != c.sheets || pages[0].Sheet.Paper.Name != c.on {
			t.Errorf("%q: %d sheets of %s, want %d of %s", c.size, len(pages), pages[0].Sheet.Paper.Name, c.sheets,
				c.on)
		}
		if got := stageGap(t, pages[0].Sheet); got < c.least {
			t.Errorf("%q: rows of %.1f mm, want %.0f at least", c.size, got, c.least)
		}
	}
}

// TestReadingsStayTogether: rows never grow so tall that the stages part.
func TestReadingsStayTogether(t *testing.T) {
	for _, p := range []*layout.Plan{samplePlan(t, plane.Millimetres), laidPlan(t)} {
		pages, err := testRecord(p, &p.Rooms[0], &p.Rooms[0].Cables[0])
		if err != nil {
			t.Fatal(err)
		}
		front := said(pages[0].Sheet)
		for _, s := range stages() {
			if !strings.Contains(front, s) {
				t.Errorf("stage %q is not on the front", s)
			}
		}
	}
}

// TestRecordStatesItsLimits before anybody measures: of ohms, and of insulation
// with its test voltage: 20 MΩ at 500 V dc where the job says nothing (IEEE 515.1
// as commonly relayed, from memory).
func TestRecordStatesItsLimits(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	pages, err := testRecord(p, &p.Rooms[0], &p.Rooms[0].Cables[0])
	if err != nil {
		t.Fatal(err)
	}
	words := strings.Join(strings.Fields(said(pages[0].Sheet)), " ")
	for _, want := range []string{"76.0 88.0 -5/+10 %, default 20 500 default", "MΩ at volts (20 least)"} {
		if !strings.Contains(words, want) {
			t.Errorf("the record does not say %q: %s", want, words)
		}
	}
}
