package sheets

import (
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

// TestJointsStayInTheirColumn: of the sections at joints and walls nothing is lettered beside the column that they are
// given, in any language, as narrow as columns of small paper are.
func TestJointsStayInTheirColumn(t *testing.T) {
	const left, wide = 30.0, 53.0
	p := *example(t, "kitchen").plan
	j := *p.Job
	p.Job = &j
	j.Sheet.Size = "A4"
	for _, j.Sheet.Units = range []plane.Units{plane.Millimetres, plane.Inches} {
		for _, j.Language = range append([]language.Language{language.English}, languages...) {
			for _, d := range jointDetailsOf(&p) {
				pg := setting.NewPage(&p, drawing.Paper{Name: "A4", W: 210, H: 297})
				d.Set(pg, drawing.Pt{X: left, Y: 30}, wide)
				for _, text := range pg.Sheet.Texts() {
					if b := text.Box(); b.X0 < left-0.5 || b.X1 > left+wide+0.5 {
						t.Errorf("%s, %s: %q stands from %.1f to %.1f of %.1f mm", j.Language.Tag(), d.name(),
							text.Text, b.X0-left, b.X1-left, wide)
					}
				}
			}
		}
	}
}
