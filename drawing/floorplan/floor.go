package floorplan

import (
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// signOf returns the sign of a no-cut zone. Undecided fixtures have their own.
func (v *View) signOf(z layout.NoCut) signs.Sign {
	switch z.Reason {
	case layout.ForFixing:
		return signs.Fixing
	case layout.LeadRise:
		return signs.Rise
	case layout.ForJoint:
		return signs.JointStrip
	}
	for _, f := range v.Room.Job.Fixtures {
		if f.Undecided && f.Name == z.Name {
			return signs.Undecided
		}
	}
	return signs.Fixture
}

// Zones hatches the no-cut zones by their reason, inside the room only; where two of a
// kind overlap their common floor is hatched once.
func (v *View) Zones() {
	hatched := map[signs.Sign]plane.Region{}
	for _, z := range v.Room.NoCut {
		if z.Reason == layout.HasCable || z.Reason == layout.ForPartition || z.Reason == layout.LeftCold {
			continue // those two are drawn with the walls and by LeftBare
		}
		region, err := z.Region.Meet(v.Room.Floor)
		if err != nil {
			region = z.Region
		}
		s := v.signOf(z)
		v.hatch(beside(region, hatched[s]), s)
		if both, err := plane.Union(hatched[s], region); err == nil {
			hatched[s] = both
		}
		v.bound(region, s, z.Name)
	}
}

// beside is what of a region lies beside another; all of it where they do not overlap,
// so that its corners stay as they are.
func beside(r, other plane.Region) plane.Region {
	if common, err := r.Meet(other); err != nil || common.Empty() {
		return r
	}
	rest, err := r.Less(other)
	if err != nil {
		return r
	}
	return rest
}

// Hatched hatches a region of the floor with the pattern of s and outlines it.
func (v *View) Hatched(r plane.Region, s signs.Sign, title string) {
	v.hatch(r, s)
	v.bound(r, s, title)
}

func (v *View) hatch(r plane.Region, s signs.Sign) {
	rings := v.Paper.Rings(r)
	if p, ok := s.Pattern(); ok && len(rings) > 0 {
		v.Add(drawing.Hatch(rings, p)...)
		v.Ink.Hatch(rings)
	}
}

// bound outlines a region of the floor with the line of s.
func (v *View) bound(r plane.Region, s signs.Sign, title string) {
	rings := v.Paper.Rings(r)
	if len(rings) == 0 {
		return
	}
	v.Sign(s, drawing.LayerHatch, title, v.Paper.Outline(r), drawing.ThinLine(), nil)
	for _, ring := range rings {
		v.Ink.Line(append(ring, ring[0]), lettering.ThinInk)
	}
}

// RiseWords writes how far each side of the lead rise walls are kept free of nails
// and screws.
func RiseWords(u plane.Units) string {
	return say.Apart(layout.RiseHalf(u), u)
}

// ThickOf is how thick what a box hangs on is drawn, mm of floor.
func (v *View) ThickOf(w job.BoxWall) float64 {
	if w.Thickness > 0 {
		return w.Thickness
	}
	return Poche * v.Paper.Ratio
}

// RiseInWall hatches the wall band where the leads rise.
func (v *View) RiseInWall() {
	w, hangs := v.Room.Job.BoxWall()
	if !hangs || len(v.Room.Cables) == 0 {
		return
	}
	half := layout.RiseHalf(v.Fig.Units)
	a, b := w.Line.At(math.Max(0, w.Along-half)), w.Line.At(math.Min(w.Line.Length(), w.Along+half))
	out := w.In.Mul(-v.ThickOf(w))
	v.Hatched(plane.FromRing(plane.Ring{a, b, b.Add(out), a.Add(out)}), signs.Rise, "lead rise in the wall")
}

// Limit draws the edge of the heated area.
func (v *View) Limit() {
	for _, p := range v.Room.Heated {
		zone := plane.Region{p}
		v.Sign(signs.Limit, drawing.LayerFloor, "limit of the heated area", v.Paper.Outline(zone),
			drawing.ClearanceLine(), nil)
		for _, ring := range v.Paper.Rings(zone) {
			v.Ink.Line(append(ring, ring[0]), lettering.ThinInk)
		}
	}
}

// LeftBare dots the parts that could take cable and have none.
func (v *View) LeftBare() {
	if !v.Room.Bare.Empty() {
		v.Dotted(v.Room.Bare)
	}
	if cold := v.LeftCold(); !cold.Empty() {
		v.Dotted(cold)
	}
}

// LeftCold is the floor that stays without cable on purpose.
func (v *View) LeftCold() plane.Region {
	cold := v.Room.Cold
	for _, z := range v.Room.NoCut {
		if z.Reason == layout.LeftCold {
			cold = append(cold[:len(cold):len(cold)], z.Region...)
		}
	}
	return cold
}

// ZoneNames names the parts of the floor that the job names.
func (v *View) ZoneNames() {
	for i := range v.Room.Job.Zones {
		z := &v.Room.Job.Zones[i]
		if z.Spans.Source("name") == job.FromDefault {
			continue
		}
		for k, region := range v.Room.Zones {
			if v.Room.Spoken(k) == z && len(region) > 0 {
				v.NameArea(z.Name, region[0].Outer, 4)
			}
		}
		for _, p := range v.Room.Cold {
			if z.Cold && (plane.Region{p}).Contains(z.At) {
				v.NameArea(z.Name, p.Outer, 4)
			}
		}
	}
}

// Dotted marks floor without cable.
func (v *View) Dotted(floor plane.Region) {
	rings := v.Paper.Rings(floor)
	if dots := drawing.Hatch(rings, drawing.HatchUnheated); len(dots) > 0 {
		v.Add(dots...)
		v.Uses(signs.Unheated)
	}
	v.Ink.Hatch(rings)
}

// Fixtures draws what stands on the floor, with names.
func (v *View) Fixtures() {
	for _, f := range v.Room.Job.Fixtures {
		v.fixture(f)
	}
	for _, k := range v.Room.Job.KeepOuts {
		switch {
		case k.Partition:
			continue // drawn with the walls
		case !k.Cold:
			v.outline(k.Outline, k.Name)
		}
		v.NameArea(k.Name, k.Outline, 3)
	}
	for _, x := range v.Room.Job.Fixings {
		v.fixing(x)
	}
}

func (v *View) fixture(f job.Fixture) {
	if f.Back.Length() > 0 && f.Width > 0 && f.Depth > 0 && rectangular(f) {
		v.stand(signs.Stand, symbols.Fixture(string(f.Kind), f.Width, f.Depth), symbols.OnLeft(f.Back),
			drawing.LayerFixtures, f.Name)
	} else {
		v.outline(f.Outline, f.Name)
	}
	if f.Flange != nil {
		at := symbols.Frame{O: f.Flange.Centre, X: plane.Pt(1, 0), Y: plane.Pt(0, 1)}
		v.stand(signs.Stand, symbols.Flange(f.Flange.Radius), at, drawing.LayerFixtures, v.Fig.Textf("%s flange",
			f.Name))
	}
	v.NameArea(v.Fig.Text(Or(f.Name, string(f.Kind))), f.Outline, 3)
	if f.Undecided {
		v.NameArea(v.Fig.Text("UNDECIDED"), f.Outline, 3)
	}
}

// rectangular reports whether a fixture fills its width and depth: one that is
// given by its outline may have its corners cut, and floor where they were.
func rectangular(f job.Fixture) bool {
	full := f.Width * f.Depth
	return math.Abs(math.Abs(f.Outline.SignedArea())-full) < 0.01*full
}

func (v *View) outline(r plane.Ring, title string) {
	pts := v.Paper.Pts(r)
	v.Sign(signs.Stand, drawing.LayerFixtures, title, drawing.Polygon(pts...), drawing.FixtureLine(), nil)
	if len(pts) > 0 {
		v.Ink.Line(append(pts, pts[0]), lettering.ThinInk)
	}
}

func (v *View) fixing(x job.Fixing) {
	if len(x.Line) == 0 {
		return
	}
	pts := v.Paper.Pts(x.Line)
	at := pts[0].Lerp(pts[len(pts)-1], 0.5)
	if len(pts) == 1 {
		v.Mark(signs.ToFix, symbols.FixingPoint(at))
	} else {
		v.Sign(signs.ToFix, drawing.LayerFixtures, x.Name, drawing.Polyline(pts...), drawing.FixtureLine(), nil)
		v.Ink.Mark(drawing.BoxOf(at).Grow(1.5))
	}
	name := v.fixingName(x)
	v.Letters.Add(&lettering.Label{Text: name, Height: drawing.H25, Rank: 4, Subject: at, Note: name,
		Spots: TagSpots(at, 2, name)})
}

// fixingName names a fixing in the reader's language: a threshold by its opening.
func (v *View) fixingName(x job.Fixing) string {
	if x.Of != "" {
		return v.Fig.Textf("%s threshold", v.Fig.Text(x.Of))
	}
	return v.Fig.Text(Or(x.Name, x.Kind))
}

// NameArea asks for a name inside an outline, or beside it with a leader.
func (v *View) NameArea(name string, outline plane.Ring, rank int) {
	if strings.TrimSpace(name) == "" || len(outline) < 3 {
		return
	}
	pts := v.Paper.Pts(outline)
	box := drawing.BoxOf(pts...)
	c := box.Centre()
	l := &lettering.Label{Text: name, Height: drawing.H25, Rank: rank, Subject: c,
		Note: name + " (" + v.PlaceWords(v.Paper.Floor(c)) + ")"}
	size := l.Sample(lettering.Spot{}).Box()
	rings := [][]drawing.Pt{pts}
	for _, angle := range []float64{0, 90} {
		w, h := size.W(), size.H()
		if angle == 90 {
			w, h = h, w
		}
		for _, at := range GridIn(box, w, h) {
			if !HoldsBox(rings, at, w, h) {
				continue
			}
			s := lettering.Spot{At: lettering.CentredOn(at, size), Angle: angle, Cost: 0.08*at.Dist(c) + angle/45}
			if angle == 90 {
				s.At = at.Sub(drawing.Pt{X: size.Centre().Y})
			}
			l.Spots = append(l.Spots, s)
		}
	}
	for _, s := range LeaderSpots(c, 0, size, 10) {
		if in := l.Box(s).Centre(); drawing.Inside(rings, in) { // nobody asks whose name it is
			s.Leader, s.Cost = nil, 0.08*in.Dist(c)
		}
		l.Spots = append(l.Spots, s)
	}
	v.Letters.Add(l)
}

// GridIn returns centres at which a text of w x h stays within box.
func GridIn(box drawing.Box, w, h float64) []drawing.Pt {
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

// HoldsBox reports whether a box of w x h about c lies inside the rings.
func HoldsBox(rings [][]drawing.Pt, c drawing.Pt, w, h float64) bool {
	b := drawing.Box{X0: c.X - w/2, Y0: c.Y - h/2, X1: c.X + w/2, Y1: c.Y + h/2}
	if !drawing.Inside(rings, c) {
		return false
	}
	for _, r := range rings {
		for i := range r {
			if b.Touches(r[i], r[(i+1)%len(r)]) {
				return false
			}
		}
	}
	return true
}

// Joints draws the movement joints, lettered MJ.
func (v *View) Joints() {
	for i, m := range v.Room.Job.Joints {
		a, b := v.Paper.Pt(m.A), v.Paper.Pt(m.B)
		v.Sign(signs.Movement, drawing.LayerFloor, strings.TrimSpace("movement joint "+m.Name), drawing.Polyline(a, b),
			drawing.JointLine(), nil)
		v.Ink.Line([]drawing.Pt{a, b}, lettering.CableInk)
		name := layout.JointName(i, len(v.Room.Job.Joints))
		l := &lettering.Label{Text: name, Height: drawing.H25, Rank: 2, Subject: a.Lerp(b, 0.5),
			Note: v.Fig.Textf("%s, movement joint", name)}
		for k := 1; k < 12; k++ {
			l.Spots = append(l.Spots, TagSpots(a.Lerp(b, float64(k)/12), 0.4, name)...)
		}
		v.Letters.Add(l)
	}
}

// TagSpots returns spots close round a mark that reaches so far from its
// centre, then spots farther off with a leader.
func TagSpots(at drawing.Pt, reach float64, text string) []lettering.Spot {
	spots, size := spotsBeside(at, reach, text)
	return append(spots, LeaderSpots(at, reach, size, 40)...)
}

// spotsBeside are the first of them, close to the subject, and the size of the text.
func spotsBeside(at drawing.Pt, reach float64, text string) (spots []lettering.Spot, size drawing.Box) {
	size = (&lettering.Label{Text: text, Height: drawing.H25}).Sample(lettering.Spot{}).Box()
	for i, d := range []drawing.Pt{{X: 1}, {X: -1}, {Y: -1}, {Y: 1}, {X: 1, Y: -1}, {X: -1, Y: -1}, {X: 1, Y: 1},
		{X: -1, Y: 1}} {
		c := at.Add(drawing.Pt{X: d.X * (reach + 1 + size.W()/2), Y: d.Y * (reach + 1 + size.H()/2)})
		spots = append(spots, lettering.Spot{At: lettering.CentredOn(c, size), Cost: 0.1 * float64(i)})
	}
	return spots, size
}

// LeaderSpots returns spots all round at growing distance, joined to the
// subject by a leader that begins at its edge.
func LeaderSpots(at drawing.Pt, reach float64, size drawing.Box, far float64) []lettering.Spot {
	const around = 24
	var directions [around]drawing.Pt
	for k := range directions {
		directions[k] = drawing.Turned(drawing.Pt{X: 1}, float64(k)*360/around)
	}
	nearest, farthest, rings := reach+5, reach+math.Max(far, 40), 0
	for r := nearest; r <= farthest; r *= 1.3 {
		rings++
	}
	// labels have hundreds of spots and a sheet dozens of labels: their memory is asked for at once
	spots, leaders := make([]lettering.Spot, 0, rings*around), make([]drawing.Pt, 0, 2*rings*around)
	for r := nearest; r <= farthest; r *= 1.3 {
		for k, u := range directions {
			end := at.Add(u.Mul(r))
			c := end.Add(drawing.Pt{X: math.Copysign(size.W()/2+0.8, u.X)})
			if math.Abs(u.X) < 0.3 {
				c = end.Add(drawing.Pt{Y: math.Copysign(size.H()/2+0.8, u.Y)})
			}
			n := len(leaders)
			leaders = append(leaders, at.Add(u.Mul(reach)), end)
			spots = append(spots, lettering.Spot{At: lettering.CentredOn(c, size), Cost: 0.02 * float64(k%3),
				Leader: leaders[n : n+2 : n+2]})
		}
	}
	return spots
}
