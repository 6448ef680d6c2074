package sheets

import (
	"testing"

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
