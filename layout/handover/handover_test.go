package handover

import (
	"image"
	"strings"
	"testing"
	"time"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/record"
)

// floor is a plan of one cable with what is recorded of it.
func floor(r *job.Laid, tested ...record.Stage) *layout.Plan {
	c := layout.Cable{ID: "H1", Laid: &layout.Laid{Whole: true, Job: r}}
	for _, s := range tested {
		c.Tested = append(c.Tested, record.Reading{Stage: s})
	}
	return &layout.Plan{Job: &job.Job{}, Rooms: []layout.Room{{Job: &job.Room{}, Cables: []layout.Cable{c}}}}
}

// TestItems: each known item is looked up where it is written down, and what nobody can look
// up is left to a person.
func TestItems(t *testing.T) {
	whole := &job.Laid{Evidence: job.ByHand, Date: time.Date(2026, 12, 2, 0, 0, 0, 0, time.UTC), Lot: "L-7",
		Tester: "500 V", Volts: 119.5, Amps: 1.97, TripTest: "5 mA, 22 ms"}
	all := []record.Stage{record.OnSpool, record.Laid, record.Covered, record.Tiled, record.Grouted, record.HookUp}
	for _, c := range []struct {
		name         string
		p            *layout.Plan
		there, lacks string
	}{
		{"as laid", floor(whole), whole.Evidence.String() + ", 2026-12-02", ""},
		{"as laid", floor(&job.Laid{Evidence: job.PlanOnly}), "", "not recorded from the floor itself"},
		{"readings", floor(whole, all...), "6 stages", ""},
		{"Readings ", floor(whole, all[:4]...), "4 stages", `nothing read at stages "grouted" and "hook-up"`},
		{"readings", floor(whole, record.Service), "0 stages",
			`nothing read at stages "on spool", "laid, before cover", ` +
				`"covered", "tiled", "grouted" and "hook-up"`},
		{"readings", floor(whole, all[:5]...), "5 stages", `nothing read at stage "hook-up"`},
		{"lot", floor(whole), "L-7", ""},
		{"lot", floor(&job.Laid{}), "", "not written down"},
		{"tester", floor(whole), "500 V", ""},
		{"hook-up", floor(whole), "119.5 V, 1.97 A", ""},
		{"hook-up", floor(&job.Laid{Volts: 120}), "", "volts and amps not written down"},
		{"hook-up", floor(&job.Laid{Amps: 1.97}), "", "volts and amps not written down"},
		{"trip test", floor(whole), "5 mA, 22 ms", ""},
		{"permit", floor(whole), "", "not written down"},
		{"cure", floor(whole), "", "no layer that hardens is written down"},
	} {
		c.p.Job.HandOver.Required = []string{c.name}
		items := Items(c.p)
		if len(items) != 1 || items[0].There.String() != c.there ||
			items[0].Lacks.String() != c.lacks || items[0].ByHand {
			t.Errorf("%s: %+v, want %q, lacking %q", c.name, items, c.there, c.lacks)
		}
	}
	p := floor(whole)
	p.Job.HandOver.Required = []string{"warranty card"}
	if items := Items(p); len(items) != 1 || !items[0].ByHand || items[0].Lacks.String() != "" {
		t.Errorf("what only a person knows: %+v", items)
	}
}

// TestReadingOutsideIsMissingToo: a stage that was read, but outside its limits, is no paper to
// hand over.
func TestReadingOutsideIsMissingToo(t *testing.T) {
	p := floor(&job.Laid{}, record.OnSpool)
	p.Rooms[0].Cables[0].Verdicts = []record.Verdict{{Grade: record.Outside}}
	p.Job.HandOver.Required = []string{"readings"}
	if got := Items(p)[0].Lacks.String(); !strings.HasSuffix(got, "; a reading outside its limits") {
		t.Errorf("%q", got)
	}
}

// TestCure: the day of full use, or the layers that have none.
func TestCure(t *testing.T) {
	p := floor(&job.Laid{})
	p.Job.HandOver.Required = []string{"cure"}
	p.FullUse = &layout.FullUse{Date: time.Date(2026, 12, 19, 0, 0, 0, 0, time.UTC)}
	if got := Items(p)[0]; got.There.String() != "full use from 2026-12-19" || got.Lacks.String() != "" {
		t.Errorf("%+v", got)
	}
	p.FullUse.Open = []string{"grout"}
	if got := Items(p)[0]; got.There.String() != "" || got.Lacks.String() != "no day for grout" {
		t.Errorf("%+v", got)
	}
	p.FullUse.Open = []string{"grout", "tile bed"}
	if got := Items(p)[0]; got.There.String() != "" || got.Lacks.String() != "no day for grout, tile bed" {
		t.Errorf("%+v", got)
	}
}

// TestPhotographs: photos in the job are counted; where it has none a person may hold them.
func TestPhotographs(t *testing.T) {
	p := floor(&job.Laid{})
	p.Job.HandOver.Required = []string{"photographs"}
	if items := Items(p); len(items) != 1 || !items[0].ByHand {
		t.Errorf("without photos: %+v", items)
	}
	const corner = 1000.0
	var pairs []photo.Pair
	for _, at := range []plane.Point{{}, {X: corner}, {X: corner, Y: corner}, {Y: corner}} {
		pairs = append(pairs, photo.Pair{Image: photo.Pixel{X: at.X / 2, Y: 500 - at.Y/2}, Floor: at})
	}
	fit, err := photo.FitTo(image.Pt(500, 500), pairs)
	if err != nil {
		t.Fatal(err)
	}
	p.Job.Laid = []job.Laid{{Photos: []job.Photo{{Fit: fit}}}}
	c := &p.Rooms[0].Cables[0] // half of its length is beyond the picture's edge, and its second run
	c.Path = []plane.Point{{X: 100, Y: 500}, {X: 1000, Y: 500}, {X: 1900, Y: 500}}
	c.Runs = []layout.Run{{Number: 1, Leg: 1}, {Number: 2, Leg: 2}}
	items := Items(p)
	if len(items) != 1 || items[0].ByHand || items[0].There.String() != "1 photo, 50 % of its length" ||
		items[0].Lacks.String() != "in no photo: run 2" {
		t.Errorf("%+v", items)
	}
	c.Path, c.Runs = c.Path[:2], c.Runs[:1]
	if items := Items(p); items[0].There.String() != "1 photo, 100 % of its length" || items[0].Lacks.String() != "" {
		t.Errorf("all of it: %+v", items)
	}
}
