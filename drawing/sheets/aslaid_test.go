package sheets

import (
	"fmt"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/compare"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
)

// laidPlan is the sample with its cable recorded as laid, 40 mm off its plan.
func laidPlan(t *testing.T) *layout.Plan {
	t.Helper()
	p := samplePlan(t, plane.Millimetres)
	p.Job.Info.Status = job.AsLaid
	c := &p.Rooms[0].Cables[0]
	readings := []job.Reading{{Stage: "on spool", By: "TT", Ohms: job.Figure{Value: c.Circuit.Nominal, Taken: true}},
		{Stage: "hook-up", Ohms: job.Figure{Value: 2 * c.Circuit.Nominal, Taken: true}}}
	n := len(c.Path) - 1
	c.Laid = &layout.Laid{Job: &job.Laid{Evidence: job.ByHand, Readings: readings}, Whole: true, Path: c.Path,
		Planned: c.Path, Joint: &c.Path[0], EndCap: &c.Path[n], Error: 25.4, FingerRoom: 76.2,
		Differ: []layout.Difference{{What: language.Say("run 1"), Plan: c.Path[0], Laid: c.Path[1], Off: 40}}}
	c.Judge(p.Job.Sensor)
	return p
}

// said is all the lettering of a sheet in one line.
func said(s *drawing.Sheet) string {
	var all []string
	for _, x := range s.Texts() {
		all = append(all, x.Text)
	}
	return strings.Join(all, " ")
}

func TestRecordsAreShown(t *testing.T) {
	set, err := Set(laidPlan(t))
	if err != nil {
		t.Fatal(err)
	}
	checkSheets(t, set)
	all := ""
	for _, s := range set {
		all += said(s) + " "
	}
	if !strings.Contains(all, "run 1: 40 mm off, at") {
		t.Error("no sheet lists what lies elsewhere than planned")
	}
	card := said(sheet(t, set, "test-record"))
	if n := strings.Count(card, notTested); n != 4 { // between spool and hook-up
		t.Errorf("%d stages of the test record are not tested", n)
	}
	if got := said(sheet(t, set, "owner-map")); !strings.Contains(got, "was not tested at stages") {
		t.Errorf("the owner's map does not say what was never tested: %s", got)
	}
	for _, want := range []string{"Held against the limits", "outside limits", "TT"} {
		if !strings.Contains(card, want) {
			t.Errorf("the test record does not say %q: %s", want, card)
		}
	}
}

func TestFaultPlan(t *testing.T) {
	p := laidPlan(t)
	c := &p.Rooms[0].Cables[0]
	f, err := probe.Trace(p, c.ID, record.Stretch{Method: "by hand", Formula: "x = 1", From: 4000, Best: 4500, To: 5200,
		Cautions: record.Cautions(), Assumptions: []string{"there is one fault"}})
	if err != nil {
		t.Fatal(err)
	}
	set, err := FaultPlan(p, f)
	if err != nil {
		t.Fatal(err)
	}
	checkSheets(t, set)
	got := said(set[0])
	for _, want := range []string{"Before a tile is lifted", "second method", "LIKELIEST",
		"Assumed: there is one fault"} {
		if !strings.Contains(got, want) {
			t.Errorf("the fault plan does not say %q: %s", want, got)
		}
	}
}

// TestFaultPlanInEachLanguage: the plan has no English word, whatever the fault was traced in.
func TestFaultPlanInEachLanguage(t *testing.T) {
	for _, l := range []language.Language{language.Spanish, language.French, language.German} {
		p := laidPlan(t)
		p.Job.Language = l
		c := record.Cable{Length: p.Rooms[0].Cables[0].Label.Length, Ohms: record.Measured{Value: 60}}
		found, err := c.Short(record.Measured{Value: 30, Error: 1})
		if err != nil {
			t.Fatal(err)
		}
		f, err := probe.Trace(p, p.Rooms[0].Cables[0].ID, found)
		if err != nil {
			t.Fatal(err)
		}
		set, err := FaultPlan(p, f)
		if err != nil {
			t.Fatal(err)
		}
		checkSheets(t, set)
		foreign(t, drawnSet{set: set}, l, fmt.Sprint(p.Job.Info, p.Rooms[0].Job.Name))
	}
}

func TestChangePlans(t *testing.T) {
	p := samplePlan(t, plane.Inches)
	p.Job.Revisions = []job.Revision{{Letter: "B", Text: "joint moved"}}
	at := p.Rooms[0].Cables[0].Path[0]
	changes := []compare.Change{{What: "revision", Before: "A", After: "B"},
		{Room: p.Rooms[0].Job.Name, What: "lead joint", Before: "there", After: "here", At: &at, Radius: 120}}
	set, err := ChangePlans(p, changes)
	if err != nil || len(set) != 1 {
		t.Fatalf("%d sheets, %v", len(set), err)
	}
	checkSheets(t, set)
	clouds, triangles := 0, 0
	for _, it := range set[0].Items {
		path, ok := it.(*drawing.Path)
		if !ok {
			continue
		}
		switch path.Title {
		case "changed":
			clouds++
		case "revision B":
			triangles++
		}
	}
	if clouds != 1 || triangles != 1 {
		t.Errorf("%d clouds, %d triangles", clouds, triangles)
	}
	if none, err := ChangePlans(p, changes[:1]); err != nil || len(none) != 0 {
		t.Errorf("%d sheets without a place on the plan, %v", len(none), err)
	}
}

// TestNothingToLay: on a floor recorded as laid nobody is told how to lay it, nor
// to plan it again.
func TestNothingToLay(t *testing.T) {
	for name, p := range map[string]*layout.Plan{"planned": samplePlan(t, plane.Millimetres), "laid": laidPlan(t)} {
		set, err := Set(p)
		if err != nil {
			t.Fatal(err)
		}
		all := ""
		for _, s := range layingSheets(set) {
			all += said(s) + " "
		}
		for _, told := range []string{"Laying, step by step", "Check the length used", "plan again from P1"} {
			if strings.Contains(all, told) != (name == "planned") {
				t.Errorf("%s: %q is wrong", name, told)
			}
		}
	}
}
