package sheets

import (
	"math"
	"testing"

	"oxturn/layout/membrane"
	"oxturn/layout/plane"
)

// TestNotchPlaces says where in a piece a notch is, by the compass as lists of runs do;
// of strips that run north, the begin of the length is their south end.
func TestNotchPlaces(t *testing.T) {
	piece := membrane.Piece{Length: 2000, Width: 900}
	v := &roomView{fig: figures{units: plane.Millimetres}}
	for _, c := range []struct {
		along float64
		notch membrane.Notch
		want  string
	}{
		{0, membrane.Notch{From: 588, To: 1000, Low: 488, High: 900}, "north edge, 588 from the west end"},
		{0, membrane.Notch{From: 588, To: 1000, Low: 0, High: 300}, "south edge, 588 from the west end"},
		{0, membrane.Notch{From: 0, To: 300, Low: 0, High: 200}, "corner, south and west"},
		{0, membrane.Notch{From: 1700, To: 2000, Low: 700, High: 900}, "corner, north and east"},
		{0, membrane.Notch{From: 1700, To: 2000, Low: 200, High: 500}, "east end, 200 from the south edge"},
		{0, membrane.Notch{From: 700, To: 900, Low: 200, High: 500}, "inside, 700 from the west end, 200 from the south edge"},
		{90, membrane.Notch{From: 588, To: 1000, Low: 488, High: 900}, "west edge, 588 from the south end"},
	} {
		if got := v.notchPlace(piece, c.notch, c.along*math.Pi/180); got != c.want {
			t.Errorf("%+v of a strip at %g degrees: %q, want %q", c.notch, c.along, got, c.want)
		}
	}
}

// TestNotchesAreListed: the kitchen's island, 1500 mm long, and its tall units are
// cut out of the pieces they stand in, with 6 mm to spare on either side.
func TestNotchesAreListed(t *testing.T) {
	p := readPlan(t, "../../testdata/jobs/kitchen.toml")
	pages, err := membranePlan(p, &p.Rooms[0])
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Notches", "north edge, 191 from the west end", "1512", "corner, north and west"} {
		if !has(pages[0].sheet, want) {
			t.Errorf("the membrane plan does not say %q", want)
		}
	}
}
