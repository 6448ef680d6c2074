package route

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"

	"github.com/sourcegraph/conc/iter"

	"oxturn/layout/plane"
)

// ErrStopped is the error of a search that Problem.Stop ended.
var ErrStopped = errors.New("the search for a route was stopped")

// Solve lays out all cables of a room. The error is a *Refusal when no
// route meets the rules, or ErrStopped.
func Solve(p Problem) ([]Route, error) {
	if err := sane(p); err != nil {
		return nil, err
	}
	if p.Known != nil {
		return p.Known.solve(p)
	}
	return search(p)
}

// search is Solve of a sane problem without what is known.
func search(p Problem) ([]Route, error) {
	routes, err := searchOneWay(p)
	if !p.turnable() || err != nil && !errors.As(err, new(*Refusal)) || err == nil && score(routes) < stopScore {
		return routes, err
	}
	other, again := searchOneWay(p.turnedOver())
	if again == nil && (err != nil || score(other) < score(routes)-worthTurning) {
		return other, nil
	}
	if errors.Is(again, ErrStopped) {
		return nil, ErrStopped
	}
	return routes, err
}

// searchOneWay is search with the pegs as they come.
func searchOneWay(p Problem) ([]Route, error) {
	r := &room{p: p, lattice: chooseLattice(p), steps: p.steps()}
	best, err := r.solve()
	refused := errors.As(err, new(*Refusal))
	if len(p.Cables) <= len(p.Zones) || err != nil && !refused || err == nil && r.sharedWell(best) {
		return best, err
	}
	return r.cutOtherwise(best, err)
}

// cutOtherwise tries the other ways to share the floor where the first led to routes that leave much of it cold, or
// to none, and returns the routes that cover most.
func (r *room) cutOtherwise(best []Route, err error) ([]Route, error) {
	for r.nthCut = 1; r.nthCut < waysToCut; r.nthCut++ {
		if r.steps.spent("other ways to share the floor between the cables") {
			break
		}
		routes, again := r.solve()
		if r.stopped() {
			return nil, ErrStopped
		}
		if again != nil {
			continue
		}
		if best == nil || r.covered(routes) > r.covered(best) {
			best = routes
		}
		if err != nil || r.sharedWell(best) {
			break
		}
	}
	if best != nil {
		return best, nil
	}
	var why *Refusal
	if !errors.As(err, &why) || why.Lead == 0 || r.steps.left <= 0 {
		return nil, err
	}
	r.nthCut, r.byReach = 0, true
	routes, again := r.solve()
	if r.stopped() {
		return nil, ErrStopped
	}
	if again == nil {
		return routes, nil
	}
	return nil, err
}

// sharedWell is set when routes cover enough of the floor for how it is shared not to be to blame for what is
// cold, and where cable is laid already, beside which a share is no more than the rest.
func (r *room) sharedWell(routes []Route) bool {
	return r.p.Brief || len(r.p.Frozen) > 0 || r.covered(routes) >= wellShared
}

// wellShared is the covered share of the floor under which other ways to share it are tried.
const wellShared = 0.95

// covered is the share of the zones' floor that the routes cover. What is in no share counts as cold, but for the
// gaps between shares.
func (r *room) covered(routes []Route) float64 {
	warm, shared, all := 0.0, 0.0, 0.0
	for _, rt := range routes {
		warm += float64(rt.Score.Covered * rt.Share.Area())
		shared += rt.Share.Area()
	}
	for z, region := range r.p.Zones {
		if slices.Contains(r.zones, z) {
			all += region.Area()
		}
	}
	return warm / max(shared, mostGap*all)
}

// mostGap is the share of the floor that lies in shares where no more than the gaps between them does not.
const mostGap = 0.95

// steps are those that the problem was given, or what it gets by itself.
func (p Problem) steps() *Steps {
	if p.Steps != nil {
		return p.Steps
	}
	return StepsFor(p.Zones, math.Sqrt(p.Pitch*p.across()), len(p.Cables), 1)
}

// solve lays out all cables with the floor cut in one way.
func (r *room) solve() ([]Route, error) {
	p := r.p
	r.strip, r.reached = newStrip(p.Floor, p.Zones, p.Entry), map[int]lengths{}
	shares, err := r.assign()
	if err != nil {
		return nil, err
	}
	regions := make([]plane.Region, len(shares))
	for i, sh := range shares {
		regions[i] = sh.region
	}
	r.regions = regions
	if r.nthCut > 0 { // the first way is to say how long a cable may be
		if err := r.tooLong(shares); err != nil {
			return nil, err
		}
	}
	if len(shares) > len(p.Zones) {
		r.strip = newStrip(p.Floor, regions, p.Entry) // leads may go between the shares too
	}
	lays := make([]*laying, len(shares))
	for i, sh := range shares {
		if lays[i], err = r.lay(sh, r.allot(shares[i:])); err != nil {
			return nil, err
		}
	}
	r.polish(lays)
	options := make([][]Route, len(p.Cables))
	for _, l := range lays {
		options[l.cable] = r.routes(l)
	}
	return r.answer(options)
}

// tooLong refuses cables that are surely too long for their shares, before any is laid.
func (r *room) tooLong(shares []share) error {
	for _, sh := range shares {
		c := r.p.Cables[sh.cable]
		if rule := rulesFor(r.p, c); c.Length > mostIn(sh.region, rule.near) {
			return &Refusal{Cable: sh.cable, Zone: sh.zone,
				Reason: fmt.Sprintf("cable %s is too long for its share", c.ID)}
		}
	}
	return nil
}

// A room is a problem being solved.
type room struct {
	p       Problem
	lattice Lattice
	strip   *strip
	rims    []*rim          // of the zones, as far as they were asked for
	regions []plane.Region  // the cables' shares of the floor, nil for whole zones
	zones   []int           // of each cable
	lying   [][]plane.Point // what cold leads may not cross
	reached map[int]lengths // by cable, worked out once
	steps   *Steps          // what there is for it
	fine    int             // fine cells looked at for leads that lie on one another
	nthCut  int             // which cut of a zone with several cables to take, the best first
	byReach bool            // the cuts are to leave every share within reach of its lead
	cutsOf  map[cutting][]cutFloor
}

// sane refuses problems that make no sense.
func sane(p Problem) error {
	switch {
	case p.Uneven != nil:
		if reason := p.uneven(); reason != "" {
			return &Refusal{Cable: -1, Zone: -1, Reason: reason}
		}
	case !(p.Pitch > 0) || p.Closest < 1 || p.Widest < p.Closest || !(p.Bend >= 0):
		return &Refusal{Cable: -1, Zone: -1,
			Reason: "the pitch, the gaps and the bend radius must be positive, the widest gap not below the closest"}
	}
	switch {
	case len(p.Zones) == 0:
		return &Refusal{Cable: -1, Zone: -1, Reason: "no floor is left for cable once the clearances are taken off"}
	case len(p.Cables) == 0:
		return &Refusal{Cable: -1, Zone: -1, Reason: "no cable is given"}
	}
	for i, c := range p.Cables {
		if !(c.Length > 0) || math.IsInf(c.Length, 1) {
			return &Refusal{Cable: i, Zone: -1, Reason: fmt.Sprintf("the length of cable %s is not a positive number",
				c.ID)}
		}
		if i < len(p.Frozen) && Length(p.Frozen[i], p.Bend) >= c.Length {
			return &Refusal{Cable: i, Zone: -1, Reason: fmt.Sprintf("nothing of cable %s is left to lay", c.ID)}
		}
	}
	return nil
}

// uneven says what is wrong with a lattice whose pegs lie otherwise one way than the other, "" for nothing.
func (p Problem) uneven() string {
	u := p.Uneven
	if !(p.Pitch > 0) || !(u.Across > 0) || !(u.Closest > 0) || !(u.Widest >= u.Closest) || !(p.Bend >= 0) ||
		2*p.Bend > u.Closest+gapSlop {
		return "the pitches, the gaps and the bend radius must be positive, the widest gap not below the closest, " +
			"nor the closest below two bends"
	}
	ways := p.ways()
	if len(ways) == 0 {
		return "no whole number of pegs lies between the closest gap and the widest"
	}
	for z, ask := range p.Asks {
		if ask.Rows != nil && !slices.Contains(ways, (&room{p: p, lattice: chooseLattice(p)}).directions(z)[0]) {
			return "along the runs asked for, no whole number of pegs lies between the closest gap and the widest"
		}
	}
	return ""
}

// ideal is the spacing in mm at which length mm of cable fills region when
// the line runs along the region's edge.
func ideal(region plane.Region, length float64) float64 {
	n := length - region.Perimeter()/2
	if n <= 0 {
		return math.Inf(1)
	}
	return region.Area() / n
}

// A laying is the search for one cable's route in its share.
type laying struct {
	share
	rule    rules
	wish    *wishes
	zone    *rim    // the whole zone, of which the share may be a part
	length  float64 // of the cable, mm
	spacing float64 // ideal in the share, mm
	field   *field
	found   []*candidate // the best first
	steps   int          // that are left to it
	short   bool         // it could have done with more
}

// lay finds routes for one cable in its share, in so many steps.
func (r *room) lay(sh share, steps int) (*laying, error) {
	c := r.p.Cables[sh.cable]
	l := &laying{share: sh, rule: rulesFor(r.p, c), zone: r.rim(sh.zone), length: c.Length, steps: steps}
	l.spacing = r.spacing(sh.region, r.left(sh.cable))
	if r.frozen(sh.cable) != nil { // the rest is to lie as wide as what is laid
		l.spacing = r.spacing(l.zone.Region, r.lengthIn(sh.zone))
	}
	l.field = newField(sh.region, r.lattice, l.rule.near, l.spacing)
	l.wish = &wishes{strip: r.strip, reach: c.LeadReach, low: r.p.Low, avoid: r.p.Avoid, both: c.Ends.Return(),
		from: r.jointOf(sh.cable, sh.zone)}
	if at := r.p.ask(sh.zone).Start; at != nil && l.wish.from == nil {
		l.wish.near = &nearStart{at: nearestIn(sh.region, *at), within: max(startWithin, startGaps*l.rule.far)}
	}
	found := r.search(l)
	l.keep(found)
	var err error
	if len(l.found) == 0 && !r.stopped() {
		err = r.refuse(l, bestOf(found))
	}
	if r.stopped() {
		return nil, ErrStopped
	}
	return l, err
}

// keep takes over the candidates that leave no more floor cold than a route may.
func (l *laying) keep(found []*candidate) {
	for _, c := range found {
		if c.score.Covered >= leastCovered*l.field.hangs {
			l.found = append(l.found, c)
		}
	}
}

// newWay is the search with a sweep over a laying's floor.
func (r *room) newWay(l *laying, s *sweep) *way {
	s.stop, s.most = r.stopped, l.steps
	return &way{sweep: s, field: l.field, zone: l.zone, length: l.length, laid: Length(r.frozen(l.cable), l.rule.bend),
		ringsOf: map[ringKey][][]node{}}
}

func sortByScore(found []*candidate) {
	slices.SortStableFunc(found, func(a, b *candidate) int { return cmp.Compare(a.score.Total, b.score.Total) })
}

// routes returns the routes found, the best first.
func (r *room) routes(l *laying) []Route {
	var out []Route
	for _, c := range l.found {
		rt := Route{Cable: l.cable, Zone: l.share.zone, Path: c.path, Lattice: r.lattice, Share: l.region,
			Spacing: l.spacing, Score: c.score, Rows: r.lattice.Angle}
		if c.plan.g.turns%2 == 1 {
			rt.Rows += math.Pi / 2
		}
		out = append(out, rt)
	}
	return out
}

// polish betters the routes found by pushes. Where several cables share a
// zone each is polished beside the others, so that the seams between them are
// no colder than the rest.
func (r *room) polish(lays []*laying) {
	if r.steps.spent("the last touches to the routes") {
		return
	}
	for z := range r.p.Zones {
		var here []*laying
		for _, l := range lays {
			if l.share.zone == z && l.wish.from == nil {
				here = append(here, l)
			}
		}
		switch len(here) {
		case 0:
		case 1:
			here[0].polishAlone()
		default:
			r.polishBeside(z, here)
		}
	}
}

// mostPolished is how many routes of a cable alone in its zone are polished.
const mostPolished = 2

// fineScore is the score below which polishing is not worth its time.
const fineScore = 2.3

// polishAlone betters the first few candidates and sorts them anew.
func (l *laying) polishAlone() {
	better := make([]*candidate, min(len(l.found), mostPolished))
	iter.ForEachIdx(better, func(i int, b **candidate) { *b = l.found[i].polish(l, l.field, nil) })
	for _, c := range better {
		if c != nil {
			l.found = append(l.found, c)
		}
	}
	sortByScore(l.found)
}

// polishBeside betters the best candidate of each cable of zone z in turn.
func (r *room) polishBeside(z int, here []*laying) {
	spacing := r.spacing(r.p.Zones[z], r.lengthIn(z))
	for i, l := range here {
		f := newField(r.about(l, 2*spacing), r.lattice, r.p.near(), spacing)
		var others []leg
		for j, o := range here {
			if j != i {
				others = append(others, f.legsNear(o.found[0].path, spacing)...)
			}
		}
		if c := l.found[0].polish(l, f, others); c != nil {
			l.found = append([]*candidate{c}, l.found...)
		}
	}
}

// about returns the floor of a laying's zone that lies within d mm of its share, or
// nearly: what its cable may warm.
func (r *room) about(l *laying, d float64) plane.Region {
	box := plane.Rect{Min: plane.Pt(math.Inf(1), math.Inf(1)), Max: plane.Pt(math.Inf(-1), math.Inf(-1))}
	for _, ring := range l.region.Rings() {
		for _, p := range ring {
			q := p.Sub(r.lattice.Origin).Rotate(-r.lattice.Angle)
			box = box.Union(plane.Rect{Min: q.Sub(plane.Pt(d, d)), Max: q.Add(plane.Pt(d, d))})
		}
	}
	ring := plane.Rectangle(box.Min, box.Max)
	for i := range ring {
		ring[i] = ring[i].Rotate(r.lattice.Angle).Add(r.lattice.Origin)
	}
	if near, err := l.zone.Meet(plane.FromRing(ring)); err == nil {
		return near
	}
	return l.zone.Region
}

// spacing is the ideal for length mm in region, within reason.
func (r *room) spacing(region plane.Region, length float64) float64 {
	return min(ideal(region, length), 3*r.p.far())
}

// lengthIn is that of all the cables in a zone.
func (r *room) lengthIn(zone int) float64 {
	n := 0.0
	for c, z := range r.zones {
		if z == zone {
			n += r.p.Cables[c].Length
		}
	}
	return n
}

// bestOf returns the first candidate, nil for none.
func bestOf(found []*candidate) *candidate {
	if len(found) == 0 {
		return nil
	}
	return found[0]
}

// search tries directions and efforts until a good route is found, and
// returns the candidates, the best first.
func (r *room) search(l *laying) []*candidate {
	var found []*candidate
	looks := plainLooks
	if l.niches() > mostNiches {
		looks = raggedLooks
	}
	directions := r.directions(l.share.zone)
	for _, look := range looks {
		if !look.worthwhile(bestOf(found), l.field) || look.effort != narrowLook && r.inVain(l, found) {
			break
		}
		ways := make([]*way, 0, 2)
		for _, t := range directions {
			w := r.newWay(l, newSweep(newGrid(l.region, r.lattice, t+look.from), l.rule, l.wish, look.effort))
			w.annexes = look.annexes
			w.begin(l.firstGap(w.sweep.rule))
			ways = append(ways, w)
		}
		for _, w := range ways {
			w.sweep.most = l.steps / len(ways)
		}
		bracketAll(ways)
		for _, w := range ways {
			found = append(found, w.found...)
		}
		sortByScore(found)
		if !r.spend(l, ways...) {
			l.short = true
			r.steps.giveUp("a wider search for cable " + r.p.Cables[l.cable].ID)
			break
		}
		if len(found) > 0 && (found[0].laying() < poorScore || slices.ContainsFunc(ways, (*way).spent)) {
			break
		}
		directions = directions[:0]
		for _, w := range ahead(ways) {
			directions = append(directions, (w.sweep.g.turns-look.from)%4)
		}
	}
	return found
}

// farOff is the share by which a cable must be too long for a look from the narrowest
// side to say so for good.
const farOff = 0.02

// farTooLong is the same for a cable of which nothing is laid: wider looks at a whole floor find longer ways than the
// first, by 3.4 % at most where that was seen. Few floors show it: of 400 random rooms 20 have too long a cable.
const farTooLong = 0.05

// inVain reports whether wider looks are not asked for, or can't find the cable a route: the
// closest gaps take far less than there is, with what is laid of it.
func (r *room) inVain(l *laying, found []*candidate) bool {
	if r.p.Brief {
		return true
	}
	if len(found) > 0 {
		return false
	}
	off := farOff
	if l.wish.from == nil {
		off = farTooLong
	}
	longest := r.reachable(l).longest
	return longest > 0 && l.length > (1+off)*longest
}

// firstGap is the gap in pegs that a laying's search begins with.
func (l *laying) firstGap(rule rules) float64 {
	gap := l.spacing / rule.y.pitch
	if l.niches() > raggedNiches {
		gap *= raggedGap
	}
	return gap
}

// niches is the square of the share's edge over its area: a square has 16, one of three to one 21,
// bathrooms with what stands in them 20 to 45, stars, combs and floors of many niches 60 and more.
func (l *laying) niches() float64 {
	edge := l.region.Perimeter()
	return edge * edge / l.region.Area()
}

const (
	raggedNiches = 60.0  // niches from which a narrower first gap pays
	mostNiches   = 120.0 // niches from which hardly any plan gets everywhere by itself
)

// A look is one try of the search, from one side of the floor.
type look struct {
	effort
	from    turns // 0, or 2 to begin at the other side
	last    bool  // only for floors that found no route at all
	dear    bool  // only for floors that are not well covered yet: it costs twice all before it
	annexes bool  // plans get rings in the pockets they leave
}

// worthwhile reports whether a floor whose best route so far is best asks for the look.
func (k look) worthwhile(best *candidate, f *field) bool {
	return best == nil || !k.last && (!k.dear || !f.well(best.score.Covered))
}

// wellCovered is the share of the floor from which a wider look hardly ever finds a
// route that covers more.
const wellCovered = 0.987

// How widely a sweep may look.
var (
	narrowLook = effort{12, 5, 7}
	wideLook   = effort{32, 9, 10}
	widestLook = effort{64, 20, 14}
)

// Most rooms are done with the first; the others get more.
var plainLooks = []look{
	{effort: narrowLook},
	{effort: narrowLook, from: 2},
	{effort: narrowLook, annexes: true, dear: true},
	{effort: wideLook, dear: true},
	{effort: wideLook, from: 2, last: true},
	{effort: widestLook, last: true},
	{effort: widestLook, from: 2, last: true},
}

// Floors of very many niches begin with rings.
var raggedLooks = []look{
	{effort: narrowLook, annexes: true},
	{effort: narrowLook, annexes: true, from: 2, dear: true},
	{effort: wideLook, annexes: true, dear: true},
	{effort: wideLook, from: 2, last: true},
	{effort: widestLook, last: true},
	{effort: widestLook, from: 2, last: true},
}

// directions lists in which directions a zone's runs may lie: along the lattice, across.
func (r *room) directions(zone int) []turns {
	rows := r.p.ask(zone).Rows
	if rows == nil || r.p.Uneven != nil && r.p.Uneven.Held > 0 {
		return r.p.ways()
	}
	if math.Abs(math.Sin(*rows-r.lattice.Angle)) > math.Sqrt2/2 {
		return []turns{1}
	}
	return []turns{0}
}

// ways are those along which runs can keep the gaps: along the lattice's angle, across it.
func (p Problem) ways() (out []turns) {
	pitches := []float64{p.across(), p.Pitch} // gaps are counted across the runs
	if p.Uneven != nil && p.Uneven.Held > 0 {
		pitches = pitches[:1]
	}
	for t, pitch := range pitches {
		if a := p.axis(pitch); a.closest <= a.widest {
			out = append(out, turns(t))
		}
	}
	return out
}

// stopped reports whether whoever asked wants no answer any more.
func (r *room) stopped() bool { return r.p.Stop != nil && r.p.Stop() }

// bracketAll brackets in all directions, round by round, until one has a good
// route. They look at each other only between rounds, so that they may go on
// at once.
func bracketAll(ways []*way) {
	for k := range gapRounds + mostNudges {
		if slices.ContainsFunc(ways, func(w *way) bool { return w.laying() < stopScore }) {
			return
		}
		if k == annexedRounds-1 && ways[0].annexes {
			ways = ahead(ways)
		}
		iter.ForEach(ways, func(w **way) { (*w).bracket() })
	}
}

// farBehind is by how much the score of a way is so much worse than that of another, which covers
// the floor well, that from its other side it would hardly come up.
const farBehind = 10.0

// ahead returns the ways whose directions are worth going on with: where the best covers the floor
// well it alone if plans get rings, as a round costs more than it would gain in the others; else
// those that are not far behind it.
func ahead(ways []*way) []*way {
	best := slices.MinFunc(ways, func(a, b *way) int { return cmp.Compare(a.laying(), b.laying()) })
	if best.best == nil || !best.field.well(best.best.score.Covered) {
		return ways
	}
	if best.annexes {
		return []*way{best}
	}
	return slices.DeleteFunc(slices.Clone(ways), func(w *way) bool { return w.behind(best) })
}

// behind reports whether a way is far behind the best one.
func (w *way) behind(best *way) bool { return w.best != nil && w.laying() > best.laying()+farBehind }
