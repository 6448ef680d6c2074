package build_test

import (
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
)

// In a plain room the lead is short wherever the box is; none is offered in a doorway or
// behind a cabinet, and the best comes first.
func TestBoxPlaces(t *testing.T) {
	p, _ := trial.Said(t, "units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\nvolts = 230\nwatts = 300\n"+
		"length = \"25 m\"\nlead = \"4 m\"\n[[room]]\nname = \"Bath\"\ncables = [\"C\"]\n"+
		"corners = [[0, 0], [2000, 0], [2000, 1400], [0, 1400]]\n"+
		"[[room.opening]]\nwall = \"A\"\nfrom = 300\nwidth = 760\n"+
		"[[room.fixture]]\nkind = \"cabinet\"\nwall = \"C\"\nfrom = 0\nwidth = 900\ndepth = 300\n"+
		"[room.thermostat]\nwall = \"B\"\nfrom = 300\n")
	places := build.BoxPlaces(p.Job, 0, []int{0, 2}, nil)
	if len(places) < 3 {
		t.Fatalf("%d places", len(places))
	}
	for i, b := range places {
		if b.Wall == 0 && b.Along > 200 && b.Along < 1160 || b.Wall == 2 && b.Along < 1000 {
			t.Errorf("a box in a doorway or behind a cabinet: %+v", b)
		}
		if b.Refused != "" {
			continue
		}
		if b.Lead <= 0 || b.Lead > 2500 || b.Covered < 0.9 {
			t.Errorf("place %d: %+v", i, b)
		}
		if i > 0 && b.Stacked < places[i-1].Stacked-10 {
			t.Errorf("place %d is better than the one before: %+v", i, b)
		}
	}
}
