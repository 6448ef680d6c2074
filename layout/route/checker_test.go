package route

import (
	"fmt"
	"math"

	"oxturn/layout/circuit"
	"oxturn/layout/plane"
)

// The checker judges routes by the hard rules with arithmetic of its own: it
// rounds the corners itself and looks only at points on the line.

type onLine struct {
	at    plane.Point
	along float64
	cable int
}

// walkLine rounds every corner by stepping round its arc and returns points
// about 5 mm apart and the length.
func walkLine(path []plane.Point, bend float64) ([]onLine, float64, error) {
	var out []onLine
	s, from := 0.0, path[0]
	straight := func(to plane.Point) {
		n := math.Hypot(to.X-from.X, to.Y-from.Y)
		for k := range int(n/5) + 1 {
			t := math.Min(1, 5*float64(k)/math.Max(n, 1e-9))
			out = append(out, onLine{at: plane.Pt(from.X+t*(to.X-from.X), from.Y+t*(to.Y-from.Y)), along: s + t*n})
		}
		s, from = s+n, to
	}
	for i := 1; i+1 < len(path); i++ {
		a, b, c := path[i-1], path[i], path[i+1]
		in, on := math.Atan2(b.Y-a.Y, b.X-a.X), math.Atan2(c.Y-b.Y, c.X-b.X)
		turn := math.Remainder(on-in, 2*math.Pi)
		if math.Abs(turn) > 3 {
			return nil, 0, fmt.Errorf("doubles back at %v", b)
		}
		cut := bend * math.Tan(math.Abs(turn)/2)
		if cut > math.Hypot(b.X-from.X, b.Y-from.Y)+0.01 || cut > math.Hypot(c.X-b.X, c.Y-b.Y)+0.01 {
			return nil, 0, fmt.Errorf("no room for the bend at %v", b)
		}
		straight(plane.Pt(b.X-cut*math.Cos(in), b.Y-cut*math.Sin(in)))
		side := math.Copysign(math.Pi/2, turn)
		cx, cy := from.X+bend*math.Cos(in+side), from.Y+bend*math.Sin(in+side)
		for k := 1; k <= 6; k++ {
			h := in - side + turn*float64(k)/6
			from = plane.Pt(cx+bend*math.Cos(h), cy+bend*math.Sin(h))
			s += bend * math.Abs(turn) / 6
			out = append(out, onLine{at: from, along: s})
		}
	}
	straight(path[len(path)-1])
	return out, s, nil
}

// broken lists the hard rules that routes break.
func broken(p Problem, routes []Route) []string {
	var bad []string
	say := func(f string, a ...any) { bad = append(bad, fmt.Sprintf(f, a...)) }
	if len(routes) != len(p.Cables) {
		say("%d routes for %d cables", len(routes), len(p.Cables))
	}
	var all []onLine
	for i, rt := range routes {
		if rt.Cable != i || rt.Zone < 0 || rt.Zone >= len(p.Zones) {
			say("route %d is of cable %d in zone %d", i, rt.Cable, rt.Zone)
			continue
		}
		pts, length, err := walkLine(rt.Path, p.Bend)
		if err != nil {
			say("cable %d: %v", i, err)
			continue
		}
		if math.Abs(length-p.Cables[i].Length) > 0.1 {
			say("cable %d is %.2f mm, not %.2f", i, length, p.Cables[i].Length)
		}
		for k := range pts {
			pts[k].cable = i
			if d := p.Zones[rt.Zone].Depth(pts[k].at); d < -0.8 {
				say("cable %d is %.1f mm outside its zone at %v", i, -d, pts[k].at)
				break
			}
		}
		all = append(all, pts...)
		bad = append(bad, badLead(p, routes, i, rt.ColdLead, rt.Path[0])...)
		if p.Cables[i].Ends == circuit.BothEnds {
			bad = append(bad, badLead(p, routes, i, rt.Return, rt.Path[len(rt.Path)-1])...)
		}
	}
	closest := float64(p.Closest) * p.Pitch
	if p.Uneven != nil {
		closest = p.Uneven.Closest
	}
	return append(bad, tooClose(all, closest)...)
}

// tooClose reports two points of cable nearer than closest, neighbours along
// one cable apart.
func tooClose(all []onLine, closest float64) []string {
	cells := map[[2]int][]onLine{}
	key := func(p plane.Point) [2]int {
		return [2]int{int(math.Floor(p.X / closest)), int(math.Floor(p.Y / closest))}
	}
	for _, a := range all {
		k := key(a.at)
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				for _, b := range cells[[2]int{k[0] + dx, k[1] + dy}] {
					if a.cable == b.cable && math.Abs(a.along-b.along) < 1.65*closest {
						continue
					}
					if d := math.Hypot(a.at.X-b.at.X, a.at.Y-b.at.Y); d < closest-1 {
						return []string{fmt.Sprintf("runs %.1f mm apart at %v", d, a.at)}
					}
				}
			}
		}
		cells[k] = append(cells[k], a)
	}
	return nil
}

// badLead checks one cold lead: it joins the entry to the cable's end over
// the floor, within its reach, and crosses no heating cable.
func badLead(p Problem, routes []Route, i int, lead []plane.Point, end plane.Point) []string {
	if len(lead) < 2 {
		return []string{fmt.Sprintf("cable %d has no cold lead", i)}
	}
	var bad []string
	if lead[0].Dist(p.Entry) > 1 || lead[len(lead)-1].Dist(end) > 1e-6 {
		bad = append(bad, fmt.Sprintf("lead of cable %d goes from %v to %v", i, lead[0], lead[len(lead)-1]))
	}
	n := 0.0
	for k := 1; k < len(lead); k++ {
		seg := plane.Segment{A: lead[k-1], B: lead[k]}
		n += seg.Length()
		for _, t := range []float64{0.1, 0.3, 0.5, 0.7, 0.9} {
			if d := p.Floor.Depth(lead[k-1].Lerp(lead[k], t)); d < -1 {
				bad = append(bad, fmt.Sprintf("lead of cable %d is %.1f mm off the floor", i, -d))
			}
		}
		for _, rt := range routes {
			for j := 1; j < len(rt.Path); j++ {
				if seg.Crosses(plane.Segment{A: rt.Path[j-1], B: rt.Path[j]}) {
					bad = append(bad, fmt.Sprintf("lead of cable %d crosses cable %d at %v", i, rt.Cable, rt.Path[j]))
				}
			}
		}
	}
	if reach := p.Cables[i].LeadReach; reach > 0 && n > reach+0.5 {
		bad = append(bad, fmt.Sprintf("lead of cable %d is %.0f mm, reach %.0f", i, n, reach))
	}
	return bad
}
