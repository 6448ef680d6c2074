package drawing

import (
	"slices"
	"testing"
)

// series is that of ISO 128-2, thin to thick, mm.
var series = []float64{0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1, 1.4, 2}

// ISO 128-2: two widths on a drawing, thick to thin 2:1, each of the series.
func TestThickToThin(t *testing.T) {
	for _, thin := range []*Stroke{FixtureLine(), MediumLine()} {
		if r := WallLine().Width / thin.Width; r != 2 {
			t.Errorf("a wall is %v times as thick", r)
		}
	}
}

func TestLinesAreOfTheSeries(t *testing.T) {
	for name, s := range map[string]*Stroke{
		"wall": WallLine(), "cable": CableLine(), "cold lead": ColdLeadLine(), "sensor lead": SensorLeadLine(),
		"fixture": FixtureLine(), "seam": SeamLine(), "joint": JointLine(), "clearance": ClearanceLine(),
		"hidden": HiddenLine(), "thin": ThinLine(), "medium": MediumLine(), "mark": MarkLine(),
	} {
		if !slices.Contains(series, s.Width) {
			t.Errorf("%s: width %v", name, s.Width)
		}
		if s.Butt != (s.Dash != nil) {
			t.Errorf("%s: round ends would close the gaps of a dashed line: %+v", name, s)
		}
		for _, d := range s.Dash {
			if d < s.Width {
				t.Errorf("%s: a part of %v mm is shorter than the line is wide", name, d)
			}
		}
	}
	// thick to thin 2:1 or more
	if WallLine().Width < 2*FixtureLine().Width || FixtureLine().Width < 1.9*ThinLine().Width {
		t.Error("thick and thin lines are too alike")
	}
}

// Colour is never the only cue, and the cable must print dark.
func TestColoursPrintDark(t *testing.T) {
	for _, c := range []Colour{HeatRed, SensorBlue} {
		if l := c.Lightness(); l > 0.2 {
			t.Errorf("%v prints %.0f %% light", c, 100*l)
		}
	}
	if Grey(0) != White || Grey(1) != Black || Grey(0.15) != (Colour{217, 217, 217}) || Grey(7) != Black {
		t.Error("greys are wrong")
	}
}

func TestStrokesAreNotShared(t *testing.T) {
	a, b := ColdLeadLine(), ColdLeadLine()
	a.Dash[0], a.Width = 99, 99
	if b.Dash[0] == 99 || b.Width == 99 {
		t.Error("changing one line changed another")
	}
}
