package sheets

import (
	"math"
	"strings"
	"testing"

	"oxturn/drawing/floorplan"
	"oxturn/layout"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// TestNotchPlaces says where in a piece a notch is, by the walls as lists of runs do;
// of strips that run up the sheet, the begin of the length is their lower end.
func TestNotchPlaces(t *testing.T) {
	room := walled(plane.Rectangle(plane.Pt(0, 0), plane.Pt(4000, 3000)))
	for i := range room.Walls {
		room.Walls[i].Letter = string(rune('A' + i))
	}
	piece := membrane.Piece{Length: 2000, Width: 900, Strip: plane.Rectangle(plane.Pt(500, 500), plane.Pt(2500, 1400))}
	v := &floorplan.View{Fig: say.Figures{Units: plane.Millimetres}, Room: &layout.Room{Job: room}}
	for _, c := range []struct {
		along float64
		notch membrane.Notch
		want  string
	}{
		{0, membrane.Notch{From: 588, To: 1000, Low: 488, High: 900},
			"edge towards wall C, 588 from the end towards wall D"},
		{0, membrane.Notch{From: 588, To: 1000, Low: 0, High: 300},
			"edge towards wall A, 588 from the end towards wall D"},
		{0, membrane.Notch{From: 0, To: 300, Low: 0, High: 200}, "corner towards wall A and wall D"},
		{0, membrane.Notch{From: 1700, To: 2000, Low: 700, High: 900}, "corner towards wall C and wall B"},
		{0, membrane.Notch{From: 1700, To: 2000, Low: 200, High: 500},
			"end towards wall B, 200 from the edge towards wall A"},
		{0, membrane.Notch{From: 700, To: 900, Low: 200, High: 500},
			"inside, 700 from the end towards wall D, 200 from the edge towards wall A"},
		{90, membrane.Notch{From: 588, To: 1000, Low: 488, High: 900},
			"edge towards wall D, 588 from the end towards wall A"},
	} {
		if got := notchPlace(v, piece, c.notch, c.along*math.Pi/180); got != c.want {
			t.Errorf("%+v of a strip at %g degrees: %q, want %q", c.notch, c.along, got, c.want)
		}
	}
}

// TestNotchesAreListed: the kitchen's island, 1500 mm long, and its tall units are
// cut out of the pieces they stand in, with 6 mm to spare on either side.
func TestNotchesAreListed(t *testing.T) {
	p := example(t, "kitchen").plan
	pages, err := membranePlan(p, &p.Rooms[0], laidIn(p, &p.Rooms[0])).Alone(p)
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"Notches", "edge towards wall C, 191 from the end towards wall D", "1512",
		"corner towards wall C and wall D"} {
		if !strings.Contains(said(pages[0].Sheet), want) {
			t.Errorf("the membrane plan does not say %q", want)
		}
	}
}
