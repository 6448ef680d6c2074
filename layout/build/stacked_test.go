package build_test

import (
	"math/rand/v2"
	"testing"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// onOneAnother measures by points a millimetre apart over how many mm leads lie on one
// another, beyond 70 mm from the foot of the box, and how many lie on another's lead
// joint: a lead is 6 mm thick, a joint up to 20 mm (common practice).
func onOneAnother(r *layout.Room) (mm float64, joints int) {
	var leads [][]plane.Point
	var ends []plane.Point
	for _, c := range r.Cables {
		leads, ends = append(leads, c.ColdLead), append(ends, c.Path[0])
		if c.Return != nil {
			leads, ends = append(leads, c.Return), append(ends, c.Path[len(c.Path)-1])
		}
	}
	for i, a := range leads {
		for _, b := range leads[:i] {
			for _, s := range plane.Segments(a) {
				for d := 0.5; d < s.Length(); d++ {
					if p := s.At(d); p.Dist(r.Job.Thermostat.At) > 70 && plane.PathDistance(b, p) < 5 {
						mm++
					}
				}
			}
		}
		for _, at := range ends {
			if at.Dist(a[len(a)-1]) > 1 && plane.PathDistance(a, at) < 12 {
				joints++
			}
		}
	}
	return mm, joints
}

// severalCables builds rooms of several cables, as many as asked for.
func severalCables(t testing.TB, n int, each func(r *layout.Room, found []job.Diagnostic)) {
	rnd := rand.New(rand.NewPCG(7, 8))
	for n > 0 {
		j, report := job.Read("job.toml", []byte(trial.SomeRoom(rnd)), nil)
		if report.Errors() > 0 {
			t.Fatal(report.Diagnostics())
		}
		if len(j.Rooms[0].Cables) < 2 {
			continue
		}
		n--
		if p, found := build.Plan(j); len(p.Rooms[0].Cables) > 0 {
			each(&p.Rooms[0], found)
		}
	}
}

// TestLeadsLieSideBySide: in few rooms of several cables does a cold lead lie on
// another or on a lead joint, and where one does, W107 says so.
func TestLeadsLieSideBySide(t *testing.T) {
	const rooms = 8
	stacked := 0
	severalCables(t, rooms, func(r *layout.Room, found []job.Diagnostic) {
		said := false
		for _, d := range found {
			said = said || d.ID == "W107"
		}
		mm, joints := onOneAnother(r)
		if mm > 20 || joints > 0 {
			stacked++
			if !said {
				t.Errorf("%d cables: %.0f mm of lead on lead, %d joints under leads, and no word of it", len(r.Cables),
					mm, joints)
			}
		}
		if said && len(r.LeadStacks()) == 0 {
			t.Error("W107 without a place")
		}
	})
	if stacked > rooms/6 {
		t.Errorf("leads lie on one another in %d of %d rooms", stacked, rooms)
	}
}

// BenchmarkSeveralCables says of 70 rooms of two to four cables in how many leads lie
// on one another or on lead joints, and over how many mm.
func BenchmarkSeveralCables(b *testing.B) {
	for b.Loop() {
		stacked, total, under := 0, 0.0, 0
		severalCables(b, 70, func(r *layout.Room, _ []job.Diagnostic) {
			mm, joints := onOneAnother(r)
			if mm > 0 || joints > 0 {
				stacked++
			}
			total += mm
			under += joints
		})
		b.ReportMetric(float64(stacked), "stacked-rooms")
		b.ReportMetric(total, "mm-stacked")
		b.ReportMetric(float64(under), "joints-under-leads")
	}
}
