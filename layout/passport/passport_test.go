package passport_test

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/passport"
	"oxturn/layout/plane"
)

// plan reads and plans a job file.
func plan(t *testing.T, name string) *layout.Plan {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return planned(t, name, data, nil)
}

func planned(t *testing.T, name string, data []byte, amend func(*job.Job) error) *layout.Plan {
	t.Helper()
	j, report := job.Read(name, data, func(n string) ([]byte, error) {
		return os.ReadFile(filepath.Join(filepath.Dir(name), n))
	})
	if report.Errors() > 0 {
		t.Fatalf("%s: %v\n%s", name, report.Diagnostics()[0], data)
	}
	if amend != nil {
		if err := amend(j); err != nil {
			t.Fatal(err)
		}
	}
	p, found := build.Plan(j)
	for _, d := range found {
		if d.Severity == job.Error {
			t.Fatalf("%s: %s\n%s", name, d.Message, data)
		}
	}
	return p
}

// What the text says becomes a job that says the same again, and in which everything
// lies where it lay, to a millimetre.
func TestReadBack(t *testing.T) {
	for _, name := range []string{"jobs/bath", "jobs/entry", "jobs/kitchen", "laid/bath"} {
		p := plan(t, "../../testdata/"+name+".toml")
		for i := range p.Rooms {
			for k := range p.Rooms[i].Cables {
				r, c := &p.Rooms[i], &p.Rooms[i].Cables[k]
				text := passport.Of(p, r, c)
				read, err := passport.Read([]byte(text))
				if err != nil {
					t.Fatalf("%s: %v\n%s", name, err, text)
				}
				back := planned(t, "label", read.Job(), read.LayBy)
				r2 := &back.Rooms[0]
				c2 := &r2.Cables[0]
				near(t, c.Path, c2.Path)
				near(t, c.ColdLead, c2.ColdLead)
				near(t, c.Return, c2.Return)
				for n, s := range r.Sensors {
					near(t, []plane.Point{s.Tip}, []plane.Point{r2.Sensors[n].Tip})
					near(t, s.Lead, r2.Sensors[n].Lead)
				}
				if c.Laid.Recorded() != c2.Laid.Recorded() || len(c.Runs) != len(c2.Runs) {
					t.Errorf("%s: recorded %v, %d runs; was %v, %d", name, c2.Laid.Recorded(), len(c2.Runs),
						c.Laid.Recorded(), len(c.Runs))
				}
				if again := passport.Of(back, r2, c2); again != text {
					t.Errorf("%s: it says\n%s\nwhere it said\n%s", name, again, text)
				}
			}
		}
	}
}

// near holds that two lines have their points within a rounding each way.
func near(t *testing.T, a, b []plane.Point) {
	t.Helper()
	for _, p := range a {
		if off := off(b, p); off > 2 {
			t.Errorf("%v lies %.1f mm off %v", p, off, b)
		}
	}
	if (len(a) > 1) != (len(b) > 1) {
		t.Errorf("%d points become %d", len(a), len(b))
	}
}

func off(line []plane.Point, p plane.Point) float64 {
	if len(line) == 0 {
		return 1e9
	}
	best := line[0].Dist(p)
	for i := 1; i < len(line); i++ {
		best = min(best, (plane.Segment{A: line[i-1], B: line[i]}).Distance(p))
	}
	return best
}

// What was misread, cut short or is from a later version is refused with the reason.
func TestWhatIsWrongIsSaid(t *testing.T) {
	p := plan(t, "../../testdata/laid/bath.toml")
	text := passport.Of(p, &p.Rooms[0], &p.Rooms[0].Cables[0])
	for what, s := range map[string]string{
		"take a newer oxturn":     strings.Replace(text, "FLOOR 1", "FLOOR 2", 1),
		"the text is not whole":   text[:len(text)/2],
		"the text was misread":    strings.Replace(text, "START 1", "START 7", 1),
		"its first line is not":   strings.Replace(text, "FLOOR 1", "FLOOR x", 1),
		"take the drawing or its": tooLong(t),
	} {
		if _, err := passport.Read([]byte(s)); err == nil || !strings.Contains(err.Error(), what) {
			t.Errorf("%v; want %q", err, what)
		}
	}
	for _, s := range []string{strings.ReplaceAll(text, "\n", "\r\n"), "\uFEFF" + text, "\n " + text + "\n\n",
		strings.TrimSpace(text)} {
		if _, err := passport.Read([]byte(s)); err != nil || !passport.Is([]byte(s)) {
			t.Errorf("%q: %v", s[:20], err)
		}
	}
}

// tooLong is the text of a cable whose path no code takes.
func tooLong(t *testing.T) string {
	p := plan(t, "../../testdata/laid/bath.toml")
	c := &p.Rooms[0].Cables[0]
	for i := range 400 {
		c.Path = append(c.Path, plane.Pt(float64(500+17*i%300), float64(300+29*i%500)))
	}
	text := passport.Of(p, &p.Rooms[0], c)
	if len(text) > passport.MostBytes || !strings.Contains(text, "\npath left out: too long") {
		t.Errorf("%d bytes:\n%s", len(text), text)
	}
	return text
}

// FuzzRead reads any text: what it takes gives a job that the reader of jobs takes,
// or that says what is wrong with it.
func FuzzRead(f *testing.F) {
	f.Add("room Bath\nplan 7KF-4RP\ncable H1 C\n120 V 100 W 144 ohm, 137 to 158\nlength 9000 lead 3000 ends 1\n" +
		"mm, x; answers in mm\nwalls A 0,0 B 900,0 C 900,900 D 0,900\nbox 1,0 up 9\nbend 15 pegs 30\n" +
		"path 75,75 N500 E60")
	f.Fuzz(func(t *testing.T, rows string) {
		p, err := passport.Read([]byte(passport.Checked("OXTURN FLOOR 1\n" + rows + "\n")))
		if err != nil {
			return
		}
		job.Read("label", p.Job(), nil)
	})
}

// Who finds a fault by the label takes off the lead as it was cut, not as it was sold.
func TestLabelGivesTheLeadAsCut(t *testing.T) {
	p := trial.Example(t, "bath.toml")
	c := p.Rooms[0].Cables[0]
	if text := passport.Of(p, &p.Rooms[0], &c); !strings.Contains(text, " lead 3048 ") {
		t.Errorf("not cut: %s", text)
	}
	c.Laid = &layout.Laid{Job: &job.Laid{Lead: 2400}}
	if text := passport.Of(p, &p.Rooms[0], &c); !strings.Contains(text, " lead 2400 ") {
		t.Errorf("cut: %s", text)
	}
}
