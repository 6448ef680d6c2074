package job

import (
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// A room from (0, 0) with wall A along x: 400 mm along it and 300 out is (400, 300).
func TestRevisedPlaces(t *testing.T) {
	row := "[[revision]]\nletter = \"B\"\ntext = \"Vanity moved\"\n"
	r := roomOf(t, anticlockwise, "[[room.revised]]\nletter = \"B\"\nat = \"A 400, 300\"\n"+row)
	if len(r.Revised) != 1 || r.Revised[0].Letter != "B" {
		t.Fatalf("%+v", r.Revised)
	}
	samePoints(t, "place", []plane.Point{r.Revised[0].At}, []plane.Point{plane.Pt(400, 300)})
	for _, c := range []struct{ things, want string }{
		{"[[room.revised]]\nletter = \"A\"\nat = [400, 300]\n" + row, `there is no revision "A"`},
		{"[[room.revised]]\nletter = \"B\"\nat = [400, -300]\n" + row, "outside wall A"},
		{"[[room.revised]]\nletter = \"B\"\nat = \"Q 400\"\n" + row, `stands on wall "Q"`},
	} {
		if said := saidOf(t, anticlockwise, c.things); !strings.Contains(said, c.want) {
			t.Errorf("%q: %s", c.things, said)
		}
	}
}
