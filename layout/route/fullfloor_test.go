package route

import (
	"errors"
	"math"
	"math/rand/v2"
	"testing"

	"oxturn/layout/plane"
)

// fullFloor is an empty rectangle with a cable that nearly fills it, or about
// half does. A plain serpentine of close rows, counted by hand, has the most
// length; its share is how much of that the cable has.
func fullFloor(t fataler, rnd *rand.Rand) (p Problem, share float64) {
	pitch, bend := 20+30*rnd.Float64(), []float64{0.5, 0.5, 0.7, 1}[rnd.IntN(4)]
	w, h := 500+2500*rnd.Float64(), 500+2500*rnd.Float64()
	closest := 2 + rnd.IntN(2)
	widest := closest + rnd.IntN(4)
	p = roomOf(t, outline(0, w, h), nil, 75, nil)
	p.Pitch, p.Closest, p.Widest, p.Bend = pitch, closest, widest, bend*pitch
	p.Entry = p.Walls[0].At(rnd.Float64() * w)
	turn := max(closest, int(math.Ceil(2*bend))) // a half turn takes no less
	p.Widest = max(p.Widest, turn)
	serpentine := func(across, along float64, gap int) float64 {
		links := math.Floor(across / pitch / float64(gap))
		return pitch*((links+1)*math.Floor(along/pitch)+links*float64(gap)) - links*2*(2-math.Pi/2)*p.Bend
	}
	most := max(serpentine(w-150, h-150, turn), serpentine(h-150, w-150, turn))
	least := min(serpentine(w-150, h-150, p.Widest), serpentine(h-150, w-150, p.Widest))
	share = 0.97 + 0.03*rnd.Float64()
	if rnd.IntN(8) == 0 {
		share = least/most + (1-least/most)*rnd.Float64()
	}
	p.Cables = []Cable{{ID: "H1", Length: math.Floor(share * most), LeadReach: []float64{0, 3000, 6000}[rnd.IntN(3)]}}
	return p, share
}

// TestFullFloors: where a serpentine of close rows has the cable's length, a
// route is found; and what a refusal calls too long is longer than anything
// that is laid.
func TestFullFloors(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	refused := 0
	for i := range 60 {
		p, share := fullFloor(t, rnd)
		routes, err := Solve(p)
		var r *Refusal
		switch {
		case errors.As(err, &r):
			refused++
			t.Logf("floor %d, %.1f %% of the most: %v", i, 100*share, err)
			if n := p.Cables[0].Length; n >= r.Shortest && n <= r.Longest {
				t.Errorf("floor %d: %.0f mm refused, which its own range holds: %v", i, n, err)
			}
		case err != nil:
			t.Fatal(err)
		default:
			if bad := broken(p, routes); bad != nil {
				t.Errorf("floor %d: %v", i, bad)
			}
		}
	}
	if refused > 1 {
		t.Errorf("%d of 60 refused", refused)
	}
}

// TestARefusalsRangeIsLaid: a cable that is too long is told what its floor
// takes; lengths from that range are laid, all that lie near its end.
func TestARefusalsRangeIsLaid(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 6))
	for i := range 5 {
		p, share := fullFloor(t, rnd)
		if i%3 > 0 {
			w, h := p.Floor.Bounds().W(), p.Floor.Bounds().H()
			q := roomOf(t, outline(i%3, w+500, h+500), nil, 75, nil)
			p.Floor, p.Zones, p.Walls, p.Entry = q.Floor, q.Zones, q.Walls, plane.Pt(w/3, 0)
		}
		p.Cables[0].Length *= 6 / share
		_, err := Solve(p)
		var r *Refusal
		if !errors.As(err, &r) {
			t.Fatalf("floor %d: %v", i, err)
		}
		for _, s := range []float64{1, 0.995, 0.98, 0.96, 0.93} {
			p.Cables[0].Length = s * r.Longest
			if p.Cables[0].Length < r.Shortest || r.Longest == 0 {
				continue
			}
			if routes, err := Solve(p); err != nil {
				t.Errorf("floor %d: %.3f of the longest: %v", i, s, err)
			} else if bad := broken(p, routes); bad != nil {
				t.Errorf("floor %d: %v", i, bad)
			}
		}
	}
}

// BenchmarkFullFloors says how many of 400 floors that a serpentine fills are
// refused.
func BenchmarkFullFloors(b *testing.B) {
	for b.Loop() {
		rnd := rand.New(rand.NewPCG(3, 4))
		refused, within := 0, 0
		for range 400 {
			p, _ := fullFloor(b, rnd)
			if _, err := Solve(p); err != nil {
				refused++
				var r *Refusal
				if n := p.Cables[0].Length; errors.As(err, &r) && n >= r.Shortest && n <= r.Longest {
					within++
				}
			}
		}
		b.ReportMetric(float64(refused), "refused")
		b.ReportMetric(float64(within), "in-their-range")
	}
}
