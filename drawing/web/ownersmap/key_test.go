package ownersmap

import (
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
)

// fullPlan is the sample with a heated area, a movement joint, something screwed
// down and a fixture that is not decided.
func fullPlan(status job.Status) *layout.Plan {
	p := samplePlan(plane.Millimetres, status, "Bath")
	r := &p.Rooms[0]
	r.Heated = plane.FromRing(plane.Rectangle(plane.Pt(150, 180), plane.Pt(1200, 2250)))
	r.Job.Joints = []job.Joint{{Segment: plane.Segment{A: plane.Pt(1230, 100), B: plane.Pt(1230, 1900)}}}
	r.Job.Fixings = []job.Fixing{{Kind: "door stop", Line: []plane.Point{{X: 2400, Y: 900}}},
		{Name: "threshold", Line: []plane.Point{{X: 2550, Y: 300}, {X: 2520, Y: 1000}}}}
	r.Job.Fixtures[0].Undecided = true
	return p
}

// TestKeyIsThePicture: the key explains what the picture of its room shows, and
// nothing else.
func TestKeyIsThePicture(t *testing.T) {
	shows := map[string]string{ // how it is drawn, and how it is called
		`class="joint"`: "movement joint", `class="fixing"`: "screwed down", `class="bare"`: "no heating cable",
		`class="tip"`:       "floor sensor, wired",
		`class="tip spare"`: "spare sensor", `class="cap"`: "end cap", `class="cold"`: "cold lead",
		`class="bands"`: "too close", `class="planned"`: "where the plan had cable",
		`class="box"`: "thermostat", `class="opening"`: "door or window", `class="tiles"`: "tile: its row",
	}
	bare := samplePlan(plane.Millimetres, job.Proposal, "Bath")
	bare.Rooms[0].Heated, bare.Rooms[0].Job.Openings, bare.Job.Tile = bare.Rooms[0].Floor, nil, job.Tile{}
	for name, p := range map[string]*layout.Plan{"as laid": fullPlan(job.AsLaid), "plan": fullPlan(job.Proposal),
		"bare": bare} {
		page := write(t, p)
		drawn := page[strings.Index(page, `<svg class="map"`):strings.Index(page, `<ul class="key"`)]
		key := page[strings.Index(page, `<ul class="key"`):strings.Index(page, `<div class="side"`)]
		for class, words := range shows {
			if is := strings.Contains(drawn, class); is != strings.Contains(key, words) {
				t.Errorf("%s: drawn %v, but the key says otherwise of %q", name, is, words)
			}
		}
	}
	page := write(t, fullPlan(job.Proposal))
	for _, want := range []string{">MJ<", ">door stop<", ">UNDECIDED<"} {
		if !strings.Contains(page, want) {
			t.Errorf("nothing is lettered %s", want)
		}
	}
}

// TestDotsPromiseNothing: a dot never stands where probe finds something, or
// too close to it; and floor without cable has dots.
func TestDotsPromiseNothing(t *testing.T) {
	random := rand.New(rand.NewPCG(26, 1))
	for _, status := range []job.Status{job.AsLaid, job.Proposal} {
		p := fullPlan(status)
		m := probe.Of(p, &p.Rooms[0])
		d := regexp.MustCompile(`class="bare" [^>]* d="([^"]*)"`).FindStringSubmatch(write(t, p))
		if d == nil {
			t.Fatalf("%s: no floor without cable is shown", status)
		}
		rings := parseRings(t, d[1])
		dotted := 0
		for range 3000 {
			at := plane.Pt(random.Float64()*2600, random.Float64()*2500)
			if !evenOdd(rings, at) {
				continue
			}
			dotted++
			a := m.At(at)
			if near := a.Near[0]; status == job.AsLaid && a.Verdict != probe.NothingRecorded && near.Clear < -0.5 {
				t.Errorf("%v is dotted, and probe says %s, %.1f mm", at, a.Verdict, near.Clear)
			}
			if p.Rooms[0].Heated.Contains(at) {
				t.Errorf("%v is dotted inside the heated area", at)
			}
		}
		if dotted < 300 {
			t.Errorf("%s: only %d of 3000 spots are dotted", status, dotted)
		}
	}
}

// parseRings reads the rings of a path in the picture's coordinates.
func parseRings(t *testing.T, d string) [][]plane.Point {
	t.Helper()
	var out [][]plane.Point
	for _, ring := range strings.Split(strings.TrimPrefix(d, "M"), "M") {
		var pts []plane.Point
		for _, pair := range strings.Fields(strings.TrimSuffix(ring, "Z")) {
			x, y, _ := strings.Cut(pair, ",")
			fx, err1 := strconv.ParseFloat(x, 64)
			fy, err2 := strconv.ParseFloat(y, 64)
			if err1 != nil || err2 != nil {
				t.Fatalf("not a point: %q", pair)
			}
			pts = append(pts, plane.Pt(fx, -fy))
		}
		out = append(out, pts)
	}
	return out
}

// evenOdd is SVG's rule: inside when a ray crosses an odd number of sides.
func evenOdd(rings [][]plane.Point, p plane.Point) bool {
	in := false
	for _, r := range rings {
		for i := range r {
			a, b := r[i], r[(i+1)%len(r)]
			if (a.Y > p.Y) != (b.Y > p.Y) && p.X < (b.X-a.X)*(p.Y-a.Y)/(b.Y-a.Y)+a.X {
				in = !in
			}
		}
	}
	return in
}

// TestRoomsHaveTheirOwnClips: no name stands for two things of a page, though
// two rooms be of one size.
func TestRoomsHaveTheirOwnClips(t *testing.T) {
	p := fullPlan(job.AsLaid)
	p.Rooms = append(p.Rooms, p.Rooms[0])
	ids := map[string]int{}
	for _, m := range regexp.MustCompile(` id="([^"]*)"`).FindAllStringSubmatch(write(t, p), -1) {
		ids[m[1]]++
	}
	for id, n := range ids {
		if n > 1 {
			t.Errorf("%q names %d things", id, n)
		}
	}
	if len(ids) < 6 {
		t.Errorf("only %v are named", ids)
	}
}
