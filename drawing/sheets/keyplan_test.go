package sheets

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout/plane"
)

// TestKeyPlan: two rooms and more get a key plan that names them all; one gets none.
func TestKeyPlan(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	one := p.Rooms[0]
	for i := range 3 {
		r := one
		j := *one.Job
		j.Name = fmt.Sprintf("Conservatory %d", i+2)
		r.Job = &j
		p.Rooms = append(p.Rooms, r)
		load := p.Load[0]
		load.Room = j.Name
		p.Load = append(p.Load, load)
	}
	pages, err := keyPlan(p)
	if err != nil {
		t.Fatal(err)
	}
	set := numbered(pages)
	write(t, "rooms", set)
	checkSheets(t, set)
	if set[0].ID != "key-plan" {
		t.Fatalf("the first sheet is %s", set[0].ID)
	}
	for i := range p.Rooms {
		if !has(set[0], p.Rooms[i].Job.Name) {
			t.Errorf("the key plan does not name %s", p.Rooms[i].Job.Name)
		}
	}
	if !has(set[0], "720") { // four times 180 W
		t.Error("the key plan does not add up the loads")
	}
	for _, whole := range []string{"No.", "Room", "Cables", "180", "Conservatory"} { // no word of its table is broken
		found := false
		for _, x := range set[0].Texts() {
			found = found || x.Height == setting.Note && strings.HasPrefix(x.Text, whole)
		}
		if !found {
			t.Errorf("the key plan's table breaks %q", whole)
		}
	}
	if id := sampleSet(t, plane.Millimetres)[0].ID; id == "key-plan" {
		t.Error("one room has a key plan")
	}
	p.Rooms = p.Rooms[:2]
	two, err := Set(p)
	if err != nil || two[0].ID != "key-plan" {
		t.Fatalf("two rooms: %v, first sheet %s", err, two[0].ID)
	}
	checkSheets(t, two)
}

func has(s *drawing.Sheet, text string) bool {
	for _, tx := range s.Texts() {
		if strings.Contains(tx.Text, text) {
			return true
		}
	}
	return false
}

// TestFor: every reader gets sheets, each of them of the set, and the owner's
// map goes to nobody but the owner and whoever hands the floor over.
func TestFor(t *testing.T) {
	set := sampleSet(t, plane.Inches)
	for _, reader := range Readers() {
		some, ok := For(set, reader)
		if !ok || len(some) == 0 || len(some) == len(set) {
			t.Errorf("%s gets %d of %d sheets", reader, len(some), len(set))
		}
		for _, s := range some {
			if strings.HasPrefix(s.ID, "owner-map") && reader != ownerReader && reader != HandedOver {
				t.Errorf("%s gets %s", reader, s.ID)
			}
		}
	}
	if _, ok := For(set, "plumber"); ok {
		t.Error("a reader that is not known")
	}
}
