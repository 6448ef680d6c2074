package main

import (
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/job"
)

// TestEmptyRoomTakesOneCable: a room of 8 x 6 ft with nothing in it is covered by
// one of the cables that a new job has; two are never taken, and none is weighed
// above it.
func TestEmptyRoomTakesOneCable(t *testing.T) {
	for _, kind := range []string{"bath", "entry"} {
		text := string(starter(kind, "in"))
		head, _, _ := strings.Cut(text, "[[room]]")
		cables := text[strings.Index(text, "[[cable]]"):]
		room := "[[room]]\nname = \"Room\"\ncorners = [[0, 0], [96, 0], [96, 72], [0, 72]]\n[room.thermostat]\nwall " +
			"= \"A\"\nfrom = 20\nheight = 48\n"
		j, report := job.Read("room.toml", []byte(head+room+cables), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		p, _ := build.Plan(j)
		if c := p.Rooms[0].Chosen; c == nil || len(c.Taken) != 1 {
			t.Errorf("%s: %+v", kind, c)
		}
		rooms, _ := build.Options(j)
		if o := rooms[0].Options[0]; !o.Taken || len(o.IDs) != 1 || o.Covered < 0.99 {
			t.Errorf("%s: %v covers %.3f", kind, o.IDs, o.Covered)
		}
	}
}
