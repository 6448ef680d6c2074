package sheets

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// boxOn puts the box of a sample plan so far along a wall.
func boxOn(t *testing.T, u plane.Units, wall int, share float64) *floorplan.View {
	t.Helper()
	p := samplePlan(t, u)
	r := p.Rooms[0].Job
	w := r.Walls[wall]
	along := share * w.Length()
	r.Thermostat.Wall, r.Thermostat.Along, r.Thermostat.At = wall, along, w.At(along)
	return &floorplan.View{Page: setting.NewPage(p, drawing.Paper{}), Room: &p.Rooms[0], Fig: p.Job.Figures(), Out: 1}
}

// Wherever the box sits, what names the part of the wall without nails stands
// beside the leads, never over them, and every lead ends within the box.
func TestRiseIsNamedBesideTheLeads(t *testing.T) {
	for i := range 20 {
		u, wall, share := plane.Millimetres, i%4, []float64{0.02, 0.23, 0.5, 0.71, 0.98}[i/4]
		if i%2 > 0 {
			u = plane.Inches
		}
		v := boxOn(t, u, wall, share)
		pages, err := electrician(v.Plan, v.Room)
		if err != nil {
			t.Fatal(err)
		}
		s := pages[0].Sheet
		box := pathsOf(s, "box")[0]
		rising := 0
		for _, it := range s.Items {
			p, ok := it.(*drawing.Path)
			if !ok || p.Layer != drawing.LayerLeads && p.Layer != drawing.LayerSensors {
				continue
			}
			lead := drawing.PathBox(p.Segs)
			if lead.W() < 1e-6 && lead.Y0 > box.Y0 && lead.Y0 < box.Y1 {
				rising++
				if lead.X0 < box.X0 || lead.X0 > box.X1 {
					t.Errorf("a lead rises at %.1f, the box reaches from %.1f to %.1f", lead.X0, box.X0, box.X1)
				}
			}
			for _, x := range s.Texts() {
				if strings.Contains(x.Text, "each side") && x.Box().Meets(lead) {
					t.Errorf("%q at %v over %s at %v", x.Text, x.Box(), p.Title, lead)
				}
			}
		}
		if rising != 3 {
			t.Errorf("wall %d at %.2f: %d of 3 leads rise to the box", wall, share, rising)
		}
		if !strings.Contains(said(s), "each side") {
			t.Error("what is kept free of nails is not said")
		}
	}
}

// Where heat does not begin in the floor that is shown, the sheet says so.
func TestStartElsewhereIsSaid(t *testing.T) {
	near, far := boxOn(t, plane.Millimetres, 0, 0.6), boxOn(t, plane.Millimetres, 2, 0.5)
	for _, c := range []struct {
		v    *floorplan.View
		said bool
	}{{near, false}, {far, true}} {
		pages, err := electrician(c.v.Plan, c.v.Room)
		if err != nil {
			t.Fatal(err)
		}
		if got := strings.Contains(said(pages[0].Sheet),
			"START: outside the floor shown, see CP-1."); got != c.said {
			t.Errorf("wall %d: said %v", c.v.Room.Job.Thermostat.Wall, got)
		}
	}
}

// In an L-shaped room the floor goes on past the inner end of either short
// wall of the notch, and past no other; by hand.
func TestFloorGoesOn(t *testing.T) {
	ring := plane.Ring{{X: 0, Y: 0}, {X: 3000, Y: 0}, {X: 3000, Y: 2000}, {X: 1500, Y: 2000}, {X: 1500, Y: 1000},
		{X: 0, Y: 1000}}
	for turn, outline := range []plane.Ring{ring, reversed(ring)} {
		v := boxOn(t, plane.Millimetres, 0, 0.5)
		v.Out = 1 - 2*float64(turn)
		v.Room.Job.Outline, v.Room.Job.Walls = outline, nil
		for i := range outline {
			v.Room.Job.Walls = append(v.Room.Job.Walls, job.Wall{Letter: string(rune('A' + i)),
				Segment: outline.Edge(i)})
		}
		open := map[string]float64{}
		for i, w := range v.Room.Job.Walls {
			v.Room.Job.Thermostat.Wall = i
			e := elevationOf(v)
			for _, x := range []float64{0, w.Length()} {
				for _, g := range e.goesOn(x) {
					at := e.place(x, 0)
					open[fmt.Sprintf("%v at %.0f, %.0f", w.At(w.Length()/2), at.X, at.Y)] += g[1] - g[0]
				}
			}
		}
		want := map[string]float64{
			fmt.Sprintf("%v at 1500, 1000", plane.Pt(1500, 1500)): stripDeep, fmt.Sprintf("%v at 1500, 1000",
				plane.Pt(750, 1000)): stripDeep,
		}
		for k, mm := range want {
			if math.Abs(open[k]-mm) > 1e-6 {
				t.Errorf("turn %d: %s: open over %.0f of %.0f mm", turn, k, open[k], mm)
			}
		}
		if len(open) != len(want) {
			t.Errorf("turn %d: open at %v", turn, open)
		}
	}
}

func reversed(r plane.Ring) plane.Ring {
	out := make(plane.Ring, len(r))
	for i := range r {
		out[len(r)-1-i] = r[i]
	}
	return out
}
