package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/symbols"
)

// signOf returns the sign of a no-cut zone. Undecided fixtures have their own.
func (v *roomView) signOf(z layout.NoCut) sign {
	switch z.Reason {
	case layout.ForFixing:
		return signFixing
	case layout.LeadRise:
		return signRise
	case layout.ForJoint:
		return signJointStrip
	}
	for _, f := range v.room.Job.Fixtures {
		if f.Undecided && f.Name == z.Name {
			return signUndecided
		}
	}
	return signFixture
}

// zones hatches the no-cut zones by their reason, inside the room only.
func (v *roomView) zones() {
	for _, z := range v.room.NoCut {
		if z.Reason == layout.HasCable {
			continue
		}
		region, err := z.Region.Meet(v.room.Floor)
		if err != nil {
			region = z.Region
		}
		v.hatched(region, v.signOf(z), z.Name)
	}
}

// hatched hatches a region of the floor with the pattern of s and outlines it.
func (v *roomView) hatched(r plane.Region, s sign, title string) {
	rings := v.view.Rings(r)
	if len(rings) == 0 {
		return
	}
	if p, ok := s.pattern(); ok {
		v.add(drawing.Hatch(rings, p)...)
		v.ink.hatch(rings)
	}
	v.sign(s, drawing.LayerHatch, title, v.view.Outline(r), drawing.ThinLine(), nil)
	for _, ring := range rings {
		v.ink.line(append(ring, ring[0]), thinInk)
	}
}

// riseWords writes how far each side of the lead rise walls are kept free of nails
// and screws.
func riseWords(u plane.Units) string {
	half := layout.RiseHalf(u)
	if u == plane.Inches {
		return fmt.Sprintf("%g in (%.0f mm)", half/plane.Inch, half)
	}
	return fmt.Sprintf("%g mm", half)
}

// riseInWall hatches the wall band where the leads rise.
func (v *roomView) riseInWall() {
	t := v.room.Job.Thermostat
	if t.Wall < 0 || t.Wall >= len(v.room.Job.Walls) || len(v.room.Cables) == 0 {
		return
	}
	w := v.room.Job.Walls[t.Wall].Segment
	foot := w.B.Sub(w.A).Unit().Dot(t.At.Sub(w.A))
	half := layout.RiseHalf(v.fig.units)
	a, b := w.At(math.Max(0, foot-half)), w.At(math.Min(w.Length(), foot+half))
	out := v.outward(w).Mul(poche * v.view.Ratio)
	v.hatched(plane.FromRing(plane.Ring{a, b, b.Add(out), a.Add(out)}), signRise, "lead rise in the wall")
}

// limit draws the edge of the heated area.
func (v *roomView) limit() {
	for _, p := range v.room.Heated {
		zone := plane.Region{p}
		v.sign(signLimit, drawing.LayerFloor, "limit of the heated area", v.view.Outline(zone), drawing.ClearanceLine(), nil)
		for _, ring := range v.view.Rings(zone) {
			v.ink.line(append(ring, ring[0]), thinInk)
		}
	}
}

// leftBare dots the parts that could take cable and have none.
func (v *roomView) leftBare() {
	if !v.room.Bare.Empty() {
		v.dotted(v.room.Bare)
	}
}

// dotted marks floor without cable.
func (v *roomView) dotted(floor plane.Region) {
	rings := v.view.Rings(floor)
	if dots := drawing.Hatch(rings, drawing.HatchUnheated); len(dots) > 0 {
		v.add(dots...)
		v.uses(signUnheated)
	}
	v.ink.hatch(rings)
}

// fixtures draws what stands on the floor, with names.
func (v *roomView) fixtures() {
	for _, f := range v.room.Job.Fixtures {
		v.fixture(f)
	}
	for _, k := range v.room.Job.KeepOuts {
		v.outline(k.Outline, k.Name)
		v.nameArea(k.Name, k.Outline, 3)
	}
	for _, x := range v.room.Job.Fixings {
		v.fixing(x)
	}
}

func (v *roomView) fixture(f job.Fixture) {
	if f.Back.Length() > 0 && f.Width > 0 && f.Depth > 0 && rectangular(f) {
		v.stand(signStand, symbols.Fixture(string(f.Kind), f.Width, f.Depth), symbols.OnLeft(f.Back), drawing.LayerFixtures, f.Name)
	} else {
		v.outline(f.Outline, f.Name)
	}
	if f.Flange != nil {
		at := symbols.Frame{O: f.Flange.Centre, X: plane.Pt(1, 0), Y: plane.Pt(0, 1)}
		v.stand(signStand, symbols.Flange(f.Flange.Radius), at, drawing.LayerFixtures, f.Name+" flange")
	}
	name := f.Name
	if name == "" {
		name = string(f.Kind)
	}
	v.nameArea(name, f.Outline, 3)
	if f.Undecided {
		v.nameArea("UNDECIDED", f.Outline, 3)
	}
}

// rectangular reports whether a fixture fills its width and depth: one that is
// given by its outline may have its corners cut, and floor where they were.
func rectangular(f job.Fixture) bool {
	full := f.Width * f.Depth
	return math.Abs(math.Abs(f.Outline.SignedArea())-full) < 0.01*full
}

func (v *roomView) outline(r plane.Ring, title string) {
	pts := v.view.Pts(r)
	v.sign(signStand, drawing.LayerFixtures, title, drawing.Polygon(pts...), drawing.FixtureLine(), nil)
	if len(pts) > 0 {
		v.ink.line(append(pts, pts[0]), thinInk)
	}
}

func (v *roomView) fixing(x job.Fixing) {
	if len(x.Line) == 0 {
		return
	}
	pts := v.view.Pts(x.Line)
	at := pts[0].Lerp(pts[len(pts)-1], 0.5)
	if len(pts) == 1 {
		v.mark(signToFix, symbols.FixingPoint(at))
	} else {
		v.sign(signToFix, drawing.LayerFixtures, x.Name, drawing.Polyline(pts...), drawing.FixtureLine(), nil)
		v.ink.mark(drawing.BoxOf(at).Grow(1.5))
	}
	name := x.Name
	if name == "" {
		name = x.Kind
	}
	v.letters.add(&label{text: name, height: drawing.H25, rank: 4, subject: at, note: name, spots: tagSpots(at, 2, name)})
}

// nameArea asks for a name inside an outline, or beside it with a leader.
func (v *roomView) nameArea(name string, outline plane.Ring, rank int) {
	if strings.TrimSpace(name) == "" || len(outline) < 3 {
		return
	}
	pts := v.view.Pts(outline)
	box := drawing.BoxOf(pts...)
	c := box.Centre()
	l := &label{text: name, height: drawing.H25, rank: rank, subject: c, note: name + " (" + v.placeWords(v.view.Floor(c)) + ")"}
	size := l.sample(spot{}).Box()
	rings := [][]drawing.Pt{pts}
	for _, angle := range []float64{0, 90} {
		w, h := size.W(), size.H()
		if angle == 90 {
			w, h = h, w
		}
		for _, at := range gridIn(box, w, h) {
			if !holdsBox(rings, at, w, h) {
				continue
			}
			s := spot{at: centredOn(at, size), angle: angle, cost: 0.08*at.Dist(c) + angle/45}
			if angle == 90 {
				s.at = at.Sub(drawing.Pt{X: size.Centre().Y})
			}
			l.spots = append(l.spots, s)
		}
	}
	for _, s := range leaderSpots(c, 0, size, 10) {
		if in := l.box(s).Centre(); inside(rings, in) { // nobody asks whose name it is
			s.leader, s.cost = nil, 0.08*in.Dist(c)
		}
		l.spots = append(l.spots, s)
	}
	v.letters.add(l)
}

// gridIn returns centres at which a text of w x h stays within box.
func gridIn(box drawing.Box, w, h float64) []drawing.Pt {
	var pts []drawing.Pt
	fx, fy := box.W()-w-1, box.H()-h-1
	if fx < 0 || fy < 0 {
		return nil
	}
	const n = 8
	for j := 0; j <= n; j++ {
		for i := 0; i <= n; i++ {
			pts = append(pts, drawing.Pt{
				X: box.X0 + w/2 + 0.5 + fx*float64(i)/n, Y: box.Y0 + h/2 + 0.5 + fy*float64(j)/n,
			})
		}
	}
	return pts
}

// holdsBox reports whether a box of w x h about c lies inside the rings.
func holdsBox(rings [][]drawing.Pt, c drawing.Pt, w, h float64) bool {
	b := drawing.Box{X0: c.X - w/2, Y0: c.Y - h/2, X1: c.X + w/2, Y1: c.Y + h/2}
	if !inside(rings, c) {
		return false
	}
	for _, r := range rings {
		for i := range r {
			if crossesBox(r[i], r[(i+1)%len(r)], b) {
				return false
			}
		}
	}
	return true
}

// joints draws the movement joints, lettered MJ.
func (v *roomView) joints() {
	for i, m := range v.room.Job.Joints {
		a, b := v.view.Pt(m.A), v.view.Pt(m.B)
		v.sign(signMovement, drawing.LayerFloor, strings.TrimSpace("movement joint "+m.Name), drawing.Polyline(a, b), drawing.JointLine(), nil)
		v.ink.line([]drawing.Pt{a, b}, cableInk)
		name := layout.JointName(i, len(v.room.Job.Joints))
		l := &label{text: name, height: drawing.H25, rank: 2, subject: a.Lerp(b, 0.5), note: name + ", movement joint"}
		for k := 1; k < 12; k++ {
			l.spots = append(l.spots, tagSpots(a.Lerp(b, float64(k)/12), 0.4, name)...)
		}
		v.letters.add(l)
	}
}

// tagSpots returns spots close round a mark that reaches so far from its
// centre, then spots farther off with a leader.
func tagSpots(at drawing.Pt, reach float64, text string) []spot {
	size := (&label{text: text, height: drawing.H25}).sample(spot{}).Box()
	var spots []spot
	for i, d := range []drawing.Pt{{X: 1}, {X: -1}, {Y: -1}, {Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}, {X: 1, Y: 1}, {X: -1, Y: 1}} {
		c := at.Add(drawing.Pt{X: d.X * (reach + 1 + size.W()/2), Y: d.Y * (reach + 1 + size.H()/2)})
		spots = append(spots, spot{at: centredOn(c, size), cost: 0.1 * float64(i)})
	}
	return append(spots, leaderSpots(at, reach, size, 40)...)
}

// leaderSpots returns spots all round at growing distance, joined to the
// subject by a leader that begins at its edge.
func leaderSpots(at drawing.Pt, reach float64, size drawing.Box, far float64) []spot {
	var spots []spot
	const around = 24
	for r := reach + 5; r <= reach+math.Max(far, 40); r *= 1.3 {
		for k := range around {
			u := drawing.Pt{X: 1}.Turned(float64(k) * 360 / around)
			end := at.Add(u.Mul(r))
			c := end.Add(drawing.Pt{X: math.Copysign(size.W()/2+0.8, u.X)})
			if math.Abs(u.X) < 0.3 {
				c = end.Add(drawing.Pt{Y: math.Copysign(size.H()/2+0.8, u.Y)})
			}
			spots = append(spots, spot{
				at: centredOn(c, size), cost: 0.02 * float64(k%3),
				leader: []drawing.Pt{at.Add(u.Mul(reach)), end},
			})
		}
	}
	return spots
}
