package sheets

import (
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
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

// TestRecordCanBeWrittenIn: whatever paper the plans are on, a record is one upright sheet of
// the binder's in their family, and its rows leave room for handwriting, which takes 7 mm (the ruling of
// ordinary writing paper, from memory).
func TestRecordCanBeWrittenIn(t *testing.T) {
	for _, c := range []struct {
		size, on string
		units    plane.Units
	}{
		{"", "A4", plane.Millimetres}, {"", "letter", plane.Inches}, {"A4", "A4", plane.Inches},
		{"A2", "A4", plane.Millimetres}, {"arch D", "letter", plane.Inches},
	} {
		p := samplePlan(t, c.units)
		p.Job.Sheet.Size = c.size
		pages, err := testRecord(p, &p.Rooms[0], &p.Rooms[0].Cables[0])
		if err != nil {
			t.Fatal(err)
		}
		if on := pages[0].Sheet.Paper; len(pages) != 1 || on.Name != c.on || on.W > on.H {
			t.Errorf("%q: %d sheets of %v, want one of %s, upright", c.size, len(pages), on, c.on)
		}
		if got := stageGap(t, pages[0].Sheet); got < 7 {
			t.Errorf("%q: rows of %.1f mm, want 7 at least", c.size, got)
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
		for _, s := range stages(say.Figures{}) {
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
	for _, want := range []string{"76.0 to 88.0 -5/+10 %, default 20 500 default", "MΩ (20 least)"} {
		if !strings.Contains(words, want) {
			t.Errorf("the record does not say %q: %s", want, words)
		}
	}
}

// An insulation of half a megohm is no 0: it says how bad the cable is.
func TestLowInsulationIsReadAsMeasured(t *testing.T) {
	for value, want := range map[float64]string{0.5: "0.5 at 500 V", 0.04: "0.04 at 500 V", 2000: "2000 at 500 V"} {
		x := record.Reading{Insulation: record.Figure{Value: value, Taken: true}, Volts: 500}
		if got := readingTexts(say.Figures{}, x)[5]; got != want {
			t.Errorf("%g MΩ: %q, want %q", value, got, want)
		}
	}
}
