package sheets

import (
	"bytes"
	"errors"
	"slices"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/svg"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// TestAloneAsInTheSet: a sheet that is drawn before the others has the bytes that it has among
// them, of plans that nothing is foreseen of.
func TestAloneAsInTheSet(t *testing.T) {
	drawn := map[string]bool{}
	for name := range drawnExamples {
		d := example(t, name)
		p, numbering := quantified(t, d.plan.Job), numberingOf(d.pages)
		for _, want := range d.set {
			got, err := Alone(p, want.ID, numbering)
			if err != nil {
				t.Fatal(err)
			}
			if got == nil {
				continue
			}
			drawn[kindIDOf(t, want.ID)] = true
			if !bytes.Equal(written(t, got), written(t, want)) {
				t.Errorf("%s: %s alone is not what the set has", name, want.ID)
			}
		}
	}
	for _, id := range []string{"cable-plan", "setting-out", "field-sheet", "membrane", "tile-plan", "covering",
		"electrician", "owner-map", "test-record", coverID} {
		if !drawn[id] {
			t.Errorf("%s is not drawn alone", id)
		}
	}
}

// The sheets of several rooms are told apart.
func TestAloneOfSeveralRooms(t *testing.T) {
	p := samplePlan(t, plane.Millimetres)
	other, named := p.Rooms[0], *p.Rooms[0].Job
	named.Name = "Conservatory 2"
	other.Job = &named
	load := p.Load[0]
	load.Room = named.Name
	p.Rooms, p.Load = append(p.Rooms, other), append(p.Load, load)
	set, numbering, err := NumberedSet(p, nil)
	if err != nil {
		t.Fatal(err)
	}
	drawn := map[string]int{}
	for _, want := range set {
		kind := kindIDOf(t, want.ID)
		if kind != "key-plan" && kind != "cable-plan" {
			continue
		}
		got, err := Alone(p, want.ID, numbering)
		if err != nil || got == nil {
			t.Fatalf("%s is not drawn alone (%v)", want.ID, err)
		}
		if drawn[kind]++; !bytes.Equal(written(t, got), written(t, want)) {
			t.Errorf("%s alone is not what the set has", want.ID)
		}
	}
	if drawn["key-plan"] != 1 || drawn["cable-plan"] != 2 {
		t.Errorf("drawn alone: %v", drawn)
	}
}

// quantified is a job's plan without what is foreseen.
func quantified(t *testing.T, j *job.Job) *layout.Plan {
	t.Helper()
	p, found := build.Lay(j, nil)
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatal(d.Message)
		}
	}
	build.Quantify(p)
	return p
}

func written(t *testing.T, s *drawing.Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := svg.Write(&b, s); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Sheets that rest on others are not drawn alone, nor are those that the set before did not have.
func TestNotAlone(t *testing.T) {
	d := example(t, "bath")
	p := quantified(t, d.plan.Job)
	for _, c := range []struct {
		id     string
		before Numbering
	}{{d.only(t, detailsID).set[0].ID, numberingOf(d.pages)}, {d.only(t, takeOffID).set[0].ID, numberingOf(d.pages)},
		{d.only(t, "cable-plan").set[0].ID, Numbering{}}, {"cable-plan-9", numberingOf(d.pages)}} {
		if s, err := Alone(p, c.id, c.before); s != nil || err != nil {
			t.Errorf("%s is drawn alone (%v)", c.id, err)
		}
	}
}

// TestSetStops: a set that is not wanted ends with the sheets that were begun.
func TestSetStops(t *testing.T) {
	d := example(t, "bath")
	asked := 0
	set, _, err := NumberedSet(d.plan, func() bool { asked++; return true })
	if set != nil || !errors.Is(err, ErrStopped) || asked == 0 {
		t.Errorf("%d sheets, %v, asked %d times", len(set), err, asked)
	}
	set, _, err = NumberedSet(d.plan, func() bool { return false })
	if err != nil || !slices.EqualFunc(set, d.set, func(a, b *drawing.Sheet) bool {
		return bytes.Equal(written(t, a), written(t, b))
	}) {
		t.Errorf("a set that may be stopped is another: %v", err)
	}
}
