package route

import (
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A share is the floor one cable is to serve.
type share struct {
	cable, zone int
	region      plane.Region
}

// assign decides which cable serves which floor: cables go to zones so that
// the ideal spacings are as equal as can be, and a zone with several cables
// is cut along lattice lines in proportion to their lengths.
func (r *room) assign() ([]share, error) {
	r.zones = r.zoneOf()
	var out []share
	for z, region := range r.p.Zones {
		region, err := r.free(region)
		if err != nil {
			return nil, err
		}
		var cables []int
		for c, zc := range r.zones {
			if zc == z {
				cables = append(cables, c)
			}
		}
		if len(cables) == 0 {
			continue
		}
		// the longest first, so that each cut leaves a simple rest
		slices.SortStableFunc(cables, func(a, b int) int { return int(r.p.Cables[b].Length - r.p.Cables[a].Length) })
		shares, err := r.divide(region, cables)
		if err != nil {
			return nil, err
		}
		for i := range shares {
			shares[i].zone = z
		}
		out = append(out, shares...)
	}
	return out, nil
}

// sameSpread is how little the spreads of two assignments differ, a ratio, by rounding alone.
const sameSpread = 1e-9

// mostWays ways to give zones to cables are looked at.
const mostWays = 4096

// zoneOf returns the zone for each cable. All ways are tried when there are
// few; else the longest cable goes to the zone that is worst off, and so on.
func (r *room) zoneOf() []int {
	n, z := len(r.p.Cables), len(r.p.Zones)
	if ways := math.Pow(float64(z), float64(n)); ways > mostWays {
		return r.deal()
	}
	best, least := make([]int, n), math.Inf(1)
	at := make([]int, n)
	for {
		if c := r.spread(at); c < least-sameSpread {
			least = c
			copy(best, at)
		}
		k := 0
		for ; k < n && at[k] == z-1; k++ {
			at[k] = 0
		}
		if k == n {
			return best
		}
		at[k]++
	}
}

// wrongZone is what a cable in another zone than its own costs: more than anything else.
const wrongZone = plane.SquareMetre

// What else makes an assignment dear, beside spacings that differ by less than ten times.
const (
	emptyZone   = 100.0
	overCrowded = 1000.0 // it can't be laid there at all
	// widestIdeal bounds the spacing of a cable that is far too short, in mm: two such are alike.
	widestIdeal = 1e4
)

// spread is how unequal the spacings of an assignment are: the widest ideal
// spacing over the closest, empty zones counting by their area.
func (r *room) spread(zoneOf []int) float64 {
	lo, hi, cost := math.Inf(1), 0.0, 0.0
	for z, region := range r.p.Zones {
		length := 0.0
		for c, zc := range zoneOf {
			if zc == z {
				length += r.p.Cables[c].Length
				cost += wrongZone * r.away(c, z)
			}
		}
		if length == 0 {
			cost += emptyZone + region.Area()/plane.SquareMetre
			continue
		}
		s := math.Min(widestIdeal, ideal(region, length))
		if s < r.p.near() {
			cost += overCrowded
		}
		lo, hi = math.Min(lo, s), math.Max(hi, s)
	}
	return cost + hi/lo
}

// away is 1 when cable c is asked for or begun in another zone than z.
func (r *room) away(c, z int) float64 {
	if at := r.p.Cables[c].Within; at != nil && nearestZone(r.p.Zones, *at) != z {
		return 1
	}
	if laid := r.frozen(c); laid != nil && r.p.Zones[z].Depth(laid[len(laid)-1]) < -r.lattice.wide() {
		return 1
	}
	return 0
}

// nearestZone is the zone that a place lies in or nearest to.
func nearestZone(zones []plane.Region, at plane.Point) int {
	best, near := 0, math.Inf(1)
	for z, region := range zones {
		if d := -region.Depth(at); d < near {
			best, near = z, d
		}
	}
	return best
}

// deal hands out the cables one by one.
func (r *room) deal() []int {
	out := make([]int, len(r.p.Cables))
	order := make([]int, len(out))
	for i := range order {
		order[i] = i
	}
	slices.SortStableFunc(order, func(a, b int) int { return int(r.p.Cables[b].Length - r.p.Cables[a].Length) })
	got := make([]float64, len(r.p.Zones))
	for _, c := range order {
		best := 0
		for z := range got {
			if r.away(c, best) > r.away(c, z) || r.away(c, best) == r.away(c, z) &&
				got[z]/r.p.Zones[z].Area() < got[best]/r.p.Zones[best].Area() {
				best = z
			}
		}
		out[c] = best
		got[best] += r.p.Cables[c].Length
	}
	return out
}

// divide cuts region among cables.
func (r *room) divide(region plane.Region, cables []int) ([]share, error) {
	if len(cables) == 1 {
		return []share{{cable: cables[0], region: region}}, nil
	}
	first, rest := cables[0], cables[1:]
	if r.byReach {
		if out := r.divideWithin(region, cables, nil, new(int)); out != nil {
			return out, nil
		}
		return nil, &Refusal{Cable: -1, Zone: -1, Reason: "no cold leads are long enough for any shares of the floor"}
	}
	a, b, err := r.cut(region, first, rest)
	if err != nil {
		return nil, err
	}
	more, err := r.divide(b, rest)
	return append([]share{{cable: first, region: a}}, more...), err
}

// mostDivided is how many ways to divide a floor among several cables are held against their leads.
const mostDivided = 64

// divideWithin cuts region among cables, after floor that has its shares, so that the leads of all come to their shares
// past all others: one cut after the other, the best first, and back where the last shares are out of reach. It counts
// the ways it tried; nil for none.
func (r *room) divideWithin(region plane.Region, cables []int, shares []share, tried *int) []share {
	if len(cables) == 1 {
		*tried++
		if shares = append(slices.Clone(shares), share{cable: cables[0], region: region}); r.allReached(shares) {
			return shares
		}
		return nil
	}
	for _, c := range r.cuts(region, cables[0], cables[1:]) {
		if c.cost >= shortLeadCost || *tried >= mostDivided {
			break
		}
		with := append(slices.Clone(shares), share{cable: cables[0], region: c.a})
		if out := r.divideWithin(c.b, cables[1:], with, tried); out != nil {
			return out
		}
	}
	return nil
}

// allReached reports whether the leads of all shares of a zone come to the largest pieces of them.
func (r *room) allReached(shares []share) bool {
	regions := otherZones(r.p.Zones, shares[0].region)
	for _, sh := range shares {
		regions = append(regions, sh.region)
	}
	with := *r
	with.strip = newStrip(r.p.Floor, regions, r.p.Entry)
	return !slices.ContainsFunc(shares, func(sh share) bool {
		return with.leadTo(plane.Region{largest(sh.region)}) > r.leadReach(sh.cable)
	})
}

func (r *room) lengthOf(cables []int) float64 {
	n := 0.0
	for _, c := range cables {
		n += r.left(c)
	}
	return n
}
