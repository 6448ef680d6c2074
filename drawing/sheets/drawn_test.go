package sheets

import (
	"fmt"
	"os"
	"path/filepath"
	"sync"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A drawnSet is a plan with its sheets, drawn once for all tests that only look at
// it, as that takes most of their time: none of them may change it.
type drawnSet struct {
	plan  *layout.Plan
	pages []*setting.Page
	bare  []*drawing.Sheet // the pages' sheets without title block and number
	set   []*drawing.Sheet
}

// checked holds a drawn set to the rules that every sheet obeys, and its legends to
// what the drawings show.
func (d drawnSet) checked(t *testing.T) {
	t.Helper()
	checkSheets(t, d.set)
	checkLegends(t, d.plan, d.pages)
	if d.plan.Job.Sheet.Orientation == "" {
		for _, s := range d.set {
			if upright := s.Paper.H > s.Paper.W; upright != setting.IsSmall(s.Paper) {
				t.Errorf("%s on %s is turned otherwise than the rest of its set", s.ID, s.Paper.Name)
			}
		}
	}
}

// draw draws the set of a plan.
func draw(p *layout.Plan) (drawnSet, error) {
	pages, err := setPages(p, nil)
	if err != nil {
		return drawnSet{}, err
	}
	d := drawnSet{plan: p, pages: pages}
	for _, pg := range pages {
		bare := *pg.Sheet
		d.bare = append(d.bare, &bare)
	}
	d.set = numbered(pages)
	return d, nil
}

// examples are the jobs of testdata/jobs.
var examples = []string{"bath", "kitchen", "entry"}

// exampleFile returns the path of an example.
func exampleFile(name string) string { return "../../testdata/jobs/" + name + ".toml" }

// onHomePaper are examples on paper that a home printer takes.
var onHomePaper = map[string]string{"bath": "letter", "kitchen": "A4"}

// drawnExamples has the examples, and some by their name and " on " the paper they are on
// there, each drawn when it is first asked for.
var drawnExamples = func() map[string]func() (drawnSet, error) {
	out := map[string]func() (drawnSet, error){}
	add := func(as, name, paper string) {
		out[as] = sync.OnceValues(func() (drawnSet, error) {
			p, err := plannedFile(exampleFile(name))
			if err != nil {
				return drawnSet{}, err
			}
			if paper != "" {
				p.Job.Sheet.Size = paper
			}
			return draw(p)
		})
	}
	for _, name := range examples {
		add(name, name, "")
	}
	for name, paper := range onHomePaper {
		add(name+" on "+paper, name, paper)
	}
	return out
}()

// only returns the sheets of one kind.
func (d drawnSet) only(t *testing.T, kind string) drawnSet {
	t.Helper()
	out := drawnSet{plan: d.plan}
	for i, s := range d.set {
		if kindIDOf(t, s.ID) == kind {
			out.pages, out.bare, out.set = append(out.pages, d.pages[i]), append(out.bare, d.bare[i]), append(out.set,
				s)
		}
	}
	return out
}

// example returns an example with its sheets, which no test may change.
func example(t testing.TB, name string) drawnSet {
	t.Helper()
	return must(t, drawnExamples[name])
}

// drawnSamples has the sample in both units, each drawn when it is first asked for.
var drawnSamples = map[plane.Units]func() (drawnSet, error){
	plane.Millimetres: sync.OnceValues(func() (drawnSet, error) { return drawSample(plane.Millimetres) }),
	plane.Inches:      sync.OnceValues(func() (drawnSet, error) { return drawSample(plane.Inches) }),
}

func drawSample(u plane.Units) (drawnSet, error) {
	p, err := sampled(u)
	if err != nil {
		return drawnSet{}, err
	}
	return draw(p)
}

// sample returns the sample with its sheets, which no test may change.
func sample(t testing.TB, u plane.Units) drawnSet {
	t.Helper()
	return must(t, drawnSamples[u])
}

func must(t testing.TB, make func() (drawnSet, error)) drawnSet {
	t.Helper()
	d, err := make()
	if err != nil {
		t.Fatal(err)
	}
	return d
}

// readJob reads a job file, which must be sound.
func readJob(path string) (*job.Job, error) {
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	open := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(filepath.Dir(path), name)) }
	j, report := job.Read(filepath.Base(path), data, open)
	if j == nil || report.Errors() > 0 {
		return nil, fmt.Errorf("%s: not a sound job: %v", path, report.Diagnostics())
	}
	return j, nil
}

// planned plans a job, which must fit.
func planned(j *job.Job) (*layout.Plan, error) {
	p, ds := build.Plan(j)
	for _, d := range ds {
		if d.Severity == job.Error {
			return nil, fmt.Errorf("%s: %s", j.File, d.Message)
		}
	}
	return p, nil
}

func plannedFile(path string) (*layout.Plan, error) {
	j, err := readJob(path)
	if err != nil {
		return nil, err
	}
	return planned(j)
}

// readPlan reads and plans a job file, for a test to change what it will.
func readPlan(t *testing.T, path string) *layout.Plan {
	t.Helper()
	p, err := plannedFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return p
}
