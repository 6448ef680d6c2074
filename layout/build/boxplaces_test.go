package build_test

import (
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/plane"
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
	places := build.BoxPlaces(p.Job, 0, append(p.Job.Rooms[0].BoxWalls("a"),
		p.Job.Rooms[0].BoxWalls("C")...), build.Search{})
	if len(places) < 3 {
		t.Fatalf("%d places", len(places))
	}
	for i, b := range places {
		if b.On.Called == "wall A" && b.Along > 200 && b.Along < 1160 || b.On.Called == "wall C" && b.Along < 1000 {
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

// A box may hang on either face of a partition, beside its doorway and off its ends; the
// partition itself stands in nobody's way.
func TestBoxPlacesOnAPartition(t *testing.T) {
	p, _ := trial.Said(t, "units = \"mm\"\n[membrane]\npitch = 30\n[[cable]]\nid = \"C\"\nvolts = 230\nwatts = 500\n"+
		"length = \"46 m\"\nlead = \"5 m\"\n[[room]]\nname = \"Bath\"\ncables = [\"C\"]\n"+
		"corners = [[0, 0], [2400, 0], [2400, 2000], [0, 2000]]\n"+
		"[[room.partition]]\nname = \"Screen\"\nfrom = \"A 1200\"\nto = [1200, 1400]\n"+
		"[[room.partition.opening]]\nfrom = 500\nwidth = 400\n"+
		"[room.thermostat]\nwall = \"screen\"\nface = \"right\"\nfrom = 200\n")
	r := &p.Job.Rooms[0]
	if got := r.Thermostat; got.At != plane.Pt(1250, 200) || got.Wall != -1 {
		t.Fatalf("the right face looks east: %+v", got)
	}
	faces := map[string]int{}
	for _, b := range build.BoxPlaces(p.Job, 0, r.BoxWalls("SCREEN"), build.Search{}) {
		faces[b.On.Side()]++
		if b.On.Called != "Screen" || b.Along > 400 && b.Along < 1000 || b.Refused != "" {
			t.Errorf("%s at %g: %s", b.On.Called, b.Along, b.Refused)
		}
	}
	if faces["left"] == 0 || faces["left"] != faces["right"] || len(faces) != 2 {
		t.Errorf("places on faces: %v", faces)
	}
}
