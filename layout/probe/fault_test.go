package probe_test

import (
	"bytes"
	"encoding/json"
	"math"
	"strings"
	"testing"

	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
)

// The cable of bath measures 2568 mm on its label and 2594 between its ends: a
// stretch from 600 to 700 lies 606 to 707 mm up the first run at x = 500.
func TestTraceByHand(t *testing.T) {
	p, _ := bath(job.AsLaid, job.PhotoWithTape)
	p.Rooms[0].Cables[0].Spacing = 120
	s := record.Stretch{Method: "m", Formula: "f", From: 600, Best: 650, To: 700, Cautions: record.Cautions()}
	f, err := probe.Trace(p, "H1", s)
	if err != nil {
		t.Fatal(err)
	}
	const scale = 2594.2 / 2568
	if want := plane.Pt(500, 100+650*scale); f.Best.Dist(want) > 0.5 {
		t.Errorf("likeliest at %v, want %v", f.Best, want)
	}
	if a, b := f.Line[0], f.Line[len(f.Line)-1]; math.Abs(a.Y-(100+600*scale)) > 0.5 ||
		math.Abs(b.Y-(100+700*scale)) > 0.5 {
		t.Errorf("stretch from %v to %v", a, b)
	}
	if f.Runs != [2]int{1, 1} || len(f.Neighbours) != 1 || f.Neighbours[0].Run != 2 ||
		math.Abs(f.Neighbours[0].Gap-120) > 0.5 {
		t.Errorf("runs %v, neighbours %+v", f.Runs, f.Neighbours)
	}
	// tiles: x 244 to 544 is one column; y from 706 to 807 crosses no joint
	// (rows run along the longer side, centred on y = 750 by tile or joint)
	if len(f.Tiles) == 0 || len(f.Tiles) > 2 {
		t.Errorf("tiles %v", f.Tiles)
	}
	for _, tile := range f.Tiles {
		ring, _ := f.Map.Tiling.Outline(tile)
		if !ring.Contains(f.Best) && ring.Distance(f.Best) > 120 {
			t.Errorf("tile %v is far from the fault", tile)
		}
	}
	said := strings.Join(f.Lines(), "\n")
	for _, want := range []string{"between 0.60 m and 0.70 m", "on run 1", "confirm the place by a second method",
		"do not re-energise", "isolate the circuit", "run 2,"} {
		if !strings.Contains(said, want) {
			t.Errorf("it does not say %q:\n%s", want, said)
		}
	}
	var b bytes.Buffer
	if err := f.WriteJSON(&b); err != nil || !json.Valid(b.Bytes()) {
		t.Error(err)
	}
}

func TestTraceByAPlanSaysSo(t *testing.T) {
	p, _ := bath(job.ForInstallation, job.PhotoWithTape)
	f, err := probe.Trace(p, "", record.Stretch{From: 100, Best: 1000, To: 2000})
	if err != nil {
		t.Fatal(err)
	}
	said := strings.Join(f.Lines(), "\n")
	if !strings.Contains(said, "by a plan") || !strings.Contains(said, ", columns ") || !strings.Contains(said,
		" lie over it") {
		t.Error(said)
	}
	if _, err := probe.Trace(p, "H7", record.Stretch{}); err == nil || !strings.Contains(err.Error(), "H1 in Bath") {
		t.Error(err)
	}
}
