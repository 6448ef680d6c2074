package job

import (
	"errors"
	"math"
	"os"
	"strings"
	"testing"

	"oxturn/layout/plane"
)

// FuzzWalls reads one taped wall: it has a direction and a length that can be
// walked, or a reason why not. Then it tapes a room with it, whose corners are
// where the tape says, but for the gap that was spread.
func FuzzWalls(f *testing.F) {
	for _, s := range []string{"east 9ft 4in", "47.5deg 3ft 2in", "-90 degrees 1m", "North-East 1/2\"", "nw2",
		"360° 1e3 mm", "s", "325deg", "east 1e309", "ost 3 m", "\xff"} {
		for _, u := range []byte{0, 1, 2} {
			f.Add(s, u)
		}
	}
	f.Fuzz(func(t *testing.T, s string, u byte) {
		rd := newReader(&Report{}, newSchema(nil), "", nil)
		rd.units = plane.Units(u % 3)
		l, bad := rd.parseLeg(s)
		if bad != nil {
			if bad.message == "" {
				t.Errorf("%q is refused without a word", s)
			}
			return
		}
		if !(l.length > 0 && l.length <= greatestLength) || !(l.bearing >= 0 && l.bearing < 360) {
			t.Fatalf("%q is read as %v", s, l)
		}
		if d := l.vector().Norm() - l.length; math.Abs(d) > 1e-6 {
			t.Errorf("%q goes %v mm too far", s, d)
		}
		taped(t, l)
	})
}

// taped walks there, aside and back, a parallelogram, with one leg a little off.
func taped(t *testing.T, l leg) {
	t.Helper()
	aside, off := leg{math.Mod(l.bearing+70, 360), 500}, 3.0
	legs := []leg{l, aside, {math.Mod(l.bearing+180, 360), l.length + off}, {math.Mod(l.bearing+250, 360), 500}}
	ring, gap := layOut(legs)
	before := append(plane.Ring{}, ring...)
	if math.Abs(gap.Norm()-off) > 1e-6 {
		t.Fatalf("%v: the gap is %v, want %v", l, gap.Norm(), off)
	}
	adjust(ring, legs, gap)
	for i := range ring {
		if d := ring[i].Dist(before[i]); d > off || math.IsNaN(d) {
			t.Errorf("%v: corner %d was moved by %v mm", l, i, d)
		}
	}
	if d := ring[3].Add(legs[3].vector()).Sub(ring[0]).Norm(); d > off*legs[3].length/around(legs)+1e-6 {
		t.Errorf("%v: the last wall still misses by %v mm", l, d)
	}
}

// laidHead is a job up to its records.
const laidHead = head + "[[room]]\nname = \"Bath\"\ncorners = [[0, 0], [2000, 0], [2000, 1500], [0, 1500]]\n" + tail

// FuzzAsLaid reads any text as the records of a job, and any as the plan they
// name: what is read is in the room and can be reckoned with.
func FuzzAsLaid(f *testing.F) {
	plan, err := os.ReadFile("../../testdata/laid/bath.layout.json")
	if err != nil {
		f.Fatal(err)
	}
	for _, file := range []string{"testdata/good/every-key.toml", "../../testdata/laid/bath.toml"} {
		data, err := os.ReadFile(file)
		if err != nil {
			f.Fatal(err)
		}
		_, laid, found := strings.Cut(string(data), "[[as_laid]]")
		if !found {
			f.Fatalf("%s has no record", file)
		}
		f.Add("[[as_laid]]"+laid, string(plan))
	}
	f.Add("[[as_laid]]\nroom = \"Bath\"\nevidence = \"plan only\"\nplan = \"x\"",
		`{"schema": 1, "rooms": [{"name": "Bath", "cables": [{"id": "H1", "path": [[1, 2], [1e400, 3]]}]}]}`)
	f.Add("[[as_laid]]\nroom = \"Bath\"\nevidence = \"measured by hand\"\nstart = [75, 75]\nlegs = [\"north 75\", "+
		"\"e 3 pegs\"]", "")
	f.Add("[[as_laid]]\nroom = \"Bath\"\n[[as_laid.reading]]\nstage = \"hook-up\"\ninsulation = \">2000\"\nohms = "+
		"nan\nfloor = \"68 F\"", "")
	f.Fuzz(func(t *testing.T, records, plan string) {
		open := func(string) ([]byte, error) {
			if plan == "" {
				return nil, errors.New("no file")
			}
			return []byte(plan), nil
		}
		j, report := Read("job.toml", []byte(laidHead+records), open)
		report.Finish()
		printed(t, report)
		if j == nil || report.Errors() > 0 {
			return
		}
		for _, a := range j.Laid {
			usable(t, j, a)
		}
	})
}

// usable fails for a record that nothing can be reckoned from.
func usable(t *testing.T, j *Job, a Laid) {
	t.Helper()
	if a.Room < 0 || a.Room >= len(j.Rooms) || !(a.Error >= 0) || math.IsNaN(a.FingerRoom) {
		t.Errorf("record %+v", a)
	}
	lines := [][]plane.Point{a.Corners, a.ColdLead, a.Return, a.Sensor.Lead, a.Spare.Lead}
	if a.Issued != nil {
		lines = append(lines, a.Issued.Path)
	}
	for _, line := range lines {
		for _, p := range line {
			if !(math.Abs(p.X) < 10*greatestLength && math.Abs(p.Y) < 10*greatestLength) {
				t.Errorf("a point at %v", p)
			}
		}
	}
	for _, r := range a.Readings {
		for _, g := range []Figure{r.Ohms, r.Insulation, r.Capacitance, r.Sensor, r.Spare, r.Floor} {
			if math.IsNaN(g.Value) || math.IsInf(g.Value, 0) || !g.Taken && g.Value != 0 {
				t.Errorf("reading %+v", g)
			}
		}
	}
}

// FuzzPrices reads any file as prices: each has a code of its own and costs
// something that can be added up, and stands where it is said to.
func FuzzPrices(f *testing.F) {
	for _, s := range []string{"code,price\nmembrane,12.50\n", "\ufeffPrice, Code\r\n1,\"a \"\"b\"\"\"\r\n",
		"code,price\n# left out\nx,\nx,1\nx,2", "code\n", "\"", "a,b\nc", "code,price\nm,1e999\nn,nan\no,-1"} {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		j, report := Read("job.toml", []byte("prices = \"p.csv\"\n"+laidHead),
			func(string) ([]byte, error) { return data, nil })
		report.Finish()
		printed(t, report)
		seen := map[string]bool{}
		for _, p := range j.Prices {
			if p.Code == "" || seen[p.Code] || !(p.Price >= 0 && p.Price <= 1e9) {
				t.Errorf("price %+v", p)
			}
			if p.Span.Start < 0 || p.Span.End > len(data) || p.Span.Start > p.Span.End {
				t.Errorf("%+v stands outside the file of %d bytes", p, len(data))
			}
			seen[p.Code] = true
		}
	})
}
