package sheets

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
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
	p, found := build.Lay(j, build.Search{})
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

// TestAloneAfterEdits makes edits of many kinds, one after the other: a sheet drawn alone, numbered
// as the set before the edit, is the one of the set after it wherever that is numbered alike.
func TestAloneAfterEdits(t *testing.T) {
	path := exampleFile("bath")
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	text, before := string(data), numberingOf(example(t, "bath").pages)
	for _, e := range [][2]string{
		{`title = "Upper bath floor"`, `title = "A bath floor with a title that takes two lines of any block"`},
		{`"north 8ft 0-1/8in"`, `"north 8ft 1/2in"`}, {`pattern = "offset"`, `pattern = "straight"`},
		{`thickness = "3/4in"`, `thickness = "1in"`}, {`name = "Bath"`, `name = "Bath upstairs"`},
		{`from = "26in"`, `from = "20in"`}, {`size = "tabloid"`, `size = "letter"`},
		{`per_box = 6`, `per_box = 8`},
	} {
		if text = strings.Replace(text, e[0], e[1], 1); !strings.Contains(text, e[1]) {
			t.Fatalf("there is no %s", e[0])
		}
		j, report := job.Read(path, []byte(text), func(name string) ([]byte, error) {
			return os.ReadFile(filepath.Join(filepath.Dir(path), name))
		})
		if j == nil || report.Errors() > 0 {
			t.Fatalf("%s: %v", e[1], report.Diagnostics())
		}
		p := quantified(t, j)
		early := map[string][]byte{}
		for id := range before.places {
			s, err := Alone(p, id, before)
			if err != nil {
				t.Fatal(err)
			}
			if s != nil {
				early[id] = written(t, s)
			}
		}
		build.Foresee(p, nil)
		set, now, err := NumberedSet(p, nil)
		if err != nil {
			t.Fatal(err)
		}
		alike := reflect.DeepEqual(before, now)
		for _, s := range set {
			if got := early[s.ID]; alike && got != nil && !bytes.Equal(got, written(t, s)) {
				t.Errorf("after %s: %s alone is not what the set has", e[1], s.ID)
			}
		}
		renames := e[0] == `name = "Bath"` || e[0] == `size = "tabloid"`
		if !alike && !renames || renames && alike || alike && len(early) < 5 {
			t.Errorf("after %s: numbered alike %v, %d sheets drawn alone", e[1], alike, len(early))
		}
		before = now
	}
}
