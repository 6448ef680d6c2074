package route

import (
	"errors"
	"math"
	"slices"
	"testing"

	"oxturn/layout/plane"
)

// A floor of 4 by 3 m with two partitions of 100 mm: one comes up from the south wall, one down from the north.
var partitioned = plane.Ring{plane.Pt(0, 0), plane.Pt(1260, 0), plane.Pt(1260, 1670), plane.Pt(1360, 1670),
	plane.Pt(1360, 0), plane.Pt(3980, 0), plane.Pt(3980, 2820), plane.Pt(3190, 2820), plane.Pt(3190, 850),
	plane.Pt(3090, 850), plane.Pt(3090, 2820), plane.Pt(0, 2820)}

// TestSharesHangTogether: any straight line across a floor of chambers parts one of them from the rest; it goes to
// the share that it hangs on, so that no share is in pieces and both cables have all floor warm.
func TestSharesHangTogether(t *testing.T) {
	p := roomOf(t, partitioned, nil, 75, nil)
	p.Entry = plane.Pt(3980, 1220)
	n := lengthFor(p, p.Zones[0], 3.6)
	p.Cables = []Cable{{ID: "H1", Length: 0.55 * n}, {ID: "H2", Length: 0.45 * n}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Error(bad)
	}
	area := 0.0
	for _, rt := range routes {
		if len(rt.Share) != 1 || rt.Score.Covered < 0.98 {
			t.Errorf("cable %d: covered %.4f of a share in %d pieces", rt.Cable, rt.Score.Covered, len(rt.Share))
		}
		area += rt.Share.Area()
	}
	if all := p.Zones[0].Area(); area < 0.94*all {
		t.Errorf("shares of %.2f m² in all, of %.2f", area/plane.SquareMetre, all/plane.SquareMetre)
	}
}

// TestSharesWithinReach: in a comb of three teeth the box is at the far side of the first; floor is shared so that
// leads of 2.5 m reach the shares of both cables, which the most even shares ask more of.
func TestSharesWithinReach(t *testing.T) {
	comb := plane.Ring{plane.Pt(0, 0), plane.Pt(5280, 0), plane.Pt(5280, 420), plane.Pt(5160, 420),
		plane.Pt(5160, 1780), plane.Pt(3520, 1780), plane.Pt(3520, 420), plane.Pt(3370, 420), plane.Pt(3370, 1970),
		plane.Pt(1760, 1970), plane.Pt(1760, 420), plane.Pt(1520, 420), plane.Pt(1520, 2870), plane.Pt(0, 2870)}
	const reach = 2500.0
	p := roomOf(t, comb, nil, 75, nil)
	p.Pitch, p.Bend, p.Entry = 38, 19, plane.Pt(0, 1850)
	p.Cables = []Cable{{ID: "H1", Length: 45_100, LeadReach: reach}, {ID: "H2", Length: 36_900, LeadReach: reach}}
	routes, err := Solve(p)
	if err != nil {
		t.Fatal(err)
	}
	if bad := broken(p, routes); bad != nil {
		t.Error(bad)
	}
	for _, rt := range routes {
		if n := plane.PathLength(rt.ColdLead); n > reach || rt.Score.Covered < 0.98 {
			t.Errorf("cable %d has a lead of %.0f mm and covers %.4f", rt.Cable, n, rt.Score.Covered)
		}
	}
}

// TestStraysAreJoined: a fork of two prongs, cut square to them, has both prongs on one side; one of them is joined to
// the handle where the other is a share of its own. The third cut is across one passage.
func TestStraysAreJoined(t *testing.T) {
	fork := plane.Ring{plane.Pt(0, 0), plane.Pt(3000, 0), plane.Pt(3000, 3000), plane.Pt(1800, 3000),
		plane.Pt(1800, 600), plane.Pt(1500, 600), plane.Pt(1500, 3000), plane.Pt(0, 3000)}
	p := roomOf(t, fork, nil, 75, nil)
	p.Cables = []Cable{{ID: "H1", Length: 1}}
	r := &room{p: p, lattice: chooseLattice(p), strip: newStrip(p.Floor, p.Zones, p.Entry)}
	n := lengthFor(p, p.Zones[0], 3.5)
	g := newGrid(p.Zones[0], r.lattice, 0)
	if g.ny < g.nx-3 { // the rows are to lie across the prongs
		g = newGrid(p.Zones[0], r.lattice, 1)
	}
	cuts := r.tryCut(g, p.Zones[0], parting{la: n / 2, lb: n / 2, reachA: 1e9, reachB: 1e9}, true)
	if len(cuts) != 3 || strays(cuts[0].a)+strays(cuts[0].b) < 0.3 {
		t.Fatalf("%d cuts", len(cuts))
	}
	c := cuts[1]
	if s := strays(c.a) + strays(c.b); s > 0 || c.cost >= cuts[0].cost {
		t.Errorf("strays %.3f, cost %.1f where the straight cut asks %.1f", s, c.cost, cuts[0].cost)
	}
	a, b := c.a.Area()/plane.SquareMetre, c.b.Area()/plane.SquareMetre
	if all := p.Zones[0].Area() / plane.SquareMetre; a < 0.4*all || b < 0.4*all || a+b > all || a+b < 0.93*all {
		t.Errorf("%.2f and %.2f of %.2f m²", a, b, all)
	}
}

// TestSurelyTooLong: of two shares of 600 by 600 mm, which take less than 8 m each, one has 9 m of cable: it is refused
// before either is laid.
func TestSurelyTooLong(t *testing.T) {
	floor := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 600)))
	for length, refused := range map[float64]bool{7000: false, 9000: true} {
		r := &room{p: Problem{Pitch: 30, Closest: 2, Widest: 5, Bend: 15,
			Cables: []Cable{{ID: "H1", Length: 7000}, {ID: "H2", Length: length}}}}
		err := r.tooLong([]share{{cable: 0, region: floor}, {cable: 1, region: floor}})
		var why *Refusal
		if errors.As(err, &why) != refused || refused && why.Cable != 1 {
			t.Errorf("%.0f mm: %v", length, err)
		}
	}
}

// TestMostIn: of cable 60 mm apart a floor of 600 by 600 mm takes 11 runs of 600 mm and 10 links, 7.2 m; two such
// floors apart take no more in one piece.
func TestMostIn(t *testing.T) {
	one := plane.FromRing(plane.Rectangle(plane.Pt(0, 0), plane.Pt(600, 600)))
	two := append(slices.Clone(one), plane.FromRing(plane.Rectangle(plane.Pt(2000, 0), plane.Pt(2600, 600)))...)
	for _, floor := range []plane.Region{one, two} {
		if most := mostIn(floor, 60); most < 7200 || most > 8000 {
			t.Errorf("%d floors: at most %.0f mm", len(floor), most)
		}
	}
}

// TestLeadReachOfSeveral: the shares of the rest are for all of them, so the longest counts.
func TestLeadReachOfSeveral(t *testing.T) {
	r := &room{p: Problem{Cables: []Cable{{LeadReach: 2000}, {LeadReach: 3000}, {}}}}
	for _, c := range []struct {
		cables []int
		want   float64
	}{{[]int{0}, 2000}, {[]int{0, 1}, 3000}, {[]int{1, 2}, math.Inf(1)}} {
		if got := r.leadReach(c.cables...); got != c.want {
			t.Errorf("%v: %g, want %g", c.cables, got, c.want)
		}
	}
}
