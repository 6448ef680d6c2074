package sheets

import (
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// As many pictures as a room has at most stand on A4 as on letter, whatever the room's shape:
// where they do not, no set can be drawn. 210 and 216 mm less a filing margin of 20 mm, 10 mm
// on the other side (ISO 5457) and 2 mm of white leave 178 mm on A4; 175 mm is tried.
func TestPhasesHaveRoomOnHomePaper(t *testing.T) {
	steps := make([]phase, mostPhases)
	for i := range steps {
		steps[i] = phase{name: "H2 HALF, check", words: []string{"Run H2-14, peg 37, 102' 11\"",
			"Half-way mark here? Else stop"}}
	}
	for _, long := range []float64{1, 1.02, 1.3, 2, 4, 9} {
		for _, floor := range []plane.Point{plane.Pt(3300*long, 3300), plane.Pt(3300, 3300*long)} {
			p := phases{head: "Laying, step by step", steps: steps, bounds: plane.Rect{Max: floor}}
			if h := p.Height(setting.NewTypesetter(language.English), 175); h > 120 {
				t.Errorf("%v mm of floor: pictures %.0f mm high", floor, h)
			}
		}
	}
}

// TestRunsOfAPictureStayApart: however small a floor is drawn, there is white between its runs.
func TestRunsOfAPictureStayApart(t *testing.T) {
	for _, gap := range []float64{0.3, 0.5, 0.7, 1, 1.4, 3} {
		for _, share := range []float64{handShare, laidShare, faintShare} {
			if w := widthBeside(gap, share, drawing.W070); w > 0.5*gap+1e-9 && w > drawing.W013 {
				t.Errorf("lines of %v mm between runs %v mm apart", w, gap)
			}
		}
	}
	if w := widthBeside(3, handShare, drawing.W070); w != drawing.W070 {
		t.Errorf("with room enough the line in hand is %v mm", w)
	}
	if w := widthBeside(3, faintShare, drawing.W018); w != drawing.W018 {
		t.Errorf("what is to come is %v mm", w)
	}
}
