package sheets

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/heat"
	"oxturn/layout/job"
	"oxturn/layout/say"
	"oxturn/symbols"
)

// A jointDetail is the floor in section at a movement joint of the job or at a wall, to a
// standard scale.
type jointDetail struct {
	fig      say.Figures
	layers   []job.Layer
	holds    int  // index of the layer with the cable, -1: none
	loose    bool // the cable lies on strips, at the foot of that layer
	goesOn   bool // with more layers below
	pitch    float64
	diameter float64
	width    float64 // of the joint
	deep     float64 // of its sealant
	clear    float64 // that the cable keeps from the joint's middle, or from the wall
	wall     bool
	across   string // what crosses the joint, in words
	numbered bool   // layers have the numbers of the table close by
	scale    drawing.Scale
}

// Sizes of a detail, mm on paper.
const (
	detailHigh  = 34.0 // height of the floor at most
	detailSide  = 44.0 // least floor beside the joint, on the side of the cable
	detailOther = 12.0 // floor on the other side
	detailAbove = 10.0 // room over the surface
	detailBelow = 9.0  // room under the floor, for names
	detailDeep  = 20.0 // mm of floor shown of the lowest layer
	detailName  = 9.0  // room beside the floor for the numbers of layers
	detailSlim  = 32.0 // least floor beside the wall in narrow columns, and beside a joint less what is shown over it
	numberRow   = 3.8  // from one number to the next
)

// jointDetailsOf returns the job's sections: at a movement joint, where it has one, and at a
// wall; none where it gives no layers.
func jointDetailsOf(p *layout.Plan) (out []jointDetail) {
	layers := p.Job.BuildUp
	if len(layers) == 0 {
		return nil
	}
	m := p.Job.Materials
	d := jointDetail{
		fig: p.Job.Figures(), layers: layers, holds: p.Job.Holding(), pitch: p.PegsAcross(),
		diameter: heat.DefaultDiameter,
		width:    m.SealantWidth, deep: m.SealantDepth, clear: p.Job.Clearance.Wall, wall: true,
		across: acrossJoints(p), numbered: onSmall(p), loose: p.Job.Strips != nil,
	}
	if d.holds >= 0 { // what lies deeper has no part in the joint
		d.layers = layers[:min(len(layers), d.holds+2)]
		d.goesOn = len(d.layers) < len(layers)
	}
	if j, ok := firstJoint(p); ok {
		at := d
		at.width, at.clear, at.wall = j.Width, j.Clear, false
		out = append(out, at.scaled())
	}
	return append(out, d.scaled())
}

// firstJoint is the first movement joint of a job.
func firstJoint(p *layout.Plan) (j job.Joint, ok bool) {
	for _, r := range p.Rooms {
		if len(r.Job.Joints) > 0 {
			return r.Job.Joints[0], true
		}
	}
	return j, false
}

// scaled draws a detail at the largest standard scale that it has room at.
func (d jointDetail) scaled() jointDetail {
	d.scale = drawing.Scale{Ratio: d.thick() / detailHigh, Name: d.fig.Text("not to scale")}
	side := detailSide
	if d.numbered {
		if side = detailSlim; !d.wall {
			side -= detailOther
		}
	}
	for _, s := range drawing.ScalesFor(d.fig.Units) {
		if s.Ratio >= 1 && d.thick()/s.Ratio <= detailHigh && d.clear*1.15/s.Ratio <= side {
			d.scale = s
			break
		}
	}
	return d
}

// drawn is how much of layer i is shown: of a thick lowest one the upper part.
func (d jointDetail) drawn(i int) float64 {
	if i < len(d.layers)-1 {
		return d.layers[i].Thickness
	}
	return math.Min(d.layers[i].Thickness, detailDeep)
}

func (d jointDetail) thick() float64 { return d.depth(len(d.layers)) }

// depth returns how deep layer i begins, mm.
func (d jointDetail) depth(i int) float64 {
	n := 0.0
	for k := range i {
		n += d.drawn(k)
	}
	return n
}

func (d jointDetail) name() string {
	if d.wall {
		return d.fig.Text("Edge of the floor at a wall")
	}
	return d.fig.Text("Movement joint")
}

func (d jointDetail) scaleName(float64) string { return d.scale.Name }

// words say what the detail shows.
func (d jointDetail) words() []string {
	out := []string{d.fig.Textf("Sealant %s wide, %s deep, over a rod: no mortar or grout.",
		d.fig.Fine().Length(d.width), d.fig.Fine().Length(d.deep))}
	if d.wall {
		return out
	}
	if d.loose {
		return append(out, d.fig.Textf("Tile and bed end to both sides; %s.", d.across))
	}
	return append(out, d.fig.Textf("Tile, bed and membrane end to both sides; %s.", d.across))
}

func (d jointDetail) wrapped(ty *setting.Typesetter, w float64) []string {
	var out []string
	for _, s := range d.words() {
		out = append(out, ty.Wrap(s, w)...)
	}
	return out
}

// Height is what the section with its words takes at a width of w, both mm of paper.
func (d jointDetail) Height(ty *setting.Typesetter, w float64) float64 {
	return detailAbove + d.thick()/d.scale.Ratio + detailBelow +
		float64(len(d.wrapped(ty, w)))*setting.Leading
}

// Set draws the section with its words from at, the upper left corner, w mm wide.
func (d jointDetail) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + detailAbove
	box := drawing.Box{X0: at.X + floorplan.Poche, Y0: y, X1: at.X + math.Min(w, 90) - setting.BreakWide,
		Y1: y + d.thick()/d.scale.Ratio}
	if d.numbered {
		box.X1 -= detailName
	}
	v := detailView{jointDetail: d, Page: pg, box: box, right: at.X + w}
	v.draw()
	for i, l := range d.wrapped(pg.Ty, w) {
		pg.Write(drawing.Pt{X: at.X, Y: box.Y1 + detailBelow + setting.Note + float64(i)*setting.Leading}, l,
			setting.Note, drawing.Start)
	}
}

// A detailView draws a detail in a box of the page.
type detailView struct {
	jointDetail
	*setting.Page
	box   drawing.Box
	right float64 // up to where the column goes
}

func (v detailView) len(mm float64) float64 { return mm / v.scale.Ratio }

// gap returns where the joint lies across the box.
func (v detailView) gap() (from, to float64) {
	wide := math.Max(v.len(v.width), 0.8)
	if v.wall {
		return v.box.X0, v.box.X0 + wide
	}
	mid := v.box.X0 + detailOther
	return mid - wide/2, mid + wide/2
}

// boxes returns the boxes of layer i: those beside the joint, which goes down
// through the membrane.
func (v detailView) boxes(i int) []drawing.Box {
	b := drawing.Box{X0: v.box.X0, Y0: v.box.Y0 + v.len(v.depth(i)), X1: v.box.X1,
		Y1: v.box.Y0 + v.len(v.depth(i)+v.drawn(i))}
	if i > v.holds {
		return []drawing.Box{b}
	}
	l, r := b, b
	l.X1, r.X0 = v.gap()
	if v.wall {
		return []drawing.Box{r}
	}
	return []drawing.Box{l, r}
}

func (v detailView) draw() {
	for i, l := range v.layers {
		cut := i == len(v.layers)-1 && (v.goesOn || v.drawn(i) < l.Thickness)
		for _, b := range v.boxes(i) {
			if p, ok := materialOf(l.Kind); ok {
				v.Add(drawing.Hatch([][]drawing.Pt{b.Corners()}, p)...)
			}
			for _, y := range []float64{b.Y0, b.Y1} {
				if cut && y == b.Y1 {
					v.BreakLine(drawing.Pt{X: b.X0, Y: y}, drawing.Pt{X: b.X1, Y: y})
					continue
				}
				v.Path(drawing.LayerWalls, l.Name, drawing.Polyline(drawing.Pt{X: b.X0, Y: y},
					drawing.Pt{X: b.X1, Y: y}), drawing.FixtureLine(), nil)
			}
		}
	}
	v.BreakLine(drawing.Pt{X: v.box.X1, Y: v.box.Y0}, drawing.Pt{X: v.box.X1, Y: v.box.Y1})
	if !v.wall {
		v.BreakLine(drawing.Pt{X: v.box.X0, Y: v.box.Y0}, drawing.Pt{X: v.box.X0, Y: v.box.Y1})
	}
	v.drawJoint()
	if v.numbered {
		v.numbers()
	}
	names := []callout{{v.fig.Text("sealant on a rod"), v.sealant().Centre()}}
	if v.holds >= 0 {
		pegs := v.drawHolding()
		v.cables()
		names = append(names, callout{v.fig.Text("cable"), drawing.Pt{X: v.run(), Y: v.channel()}})
		if n := len(pegs); n > 1 {
			names = append(names, callout{v.fig.Text("peg"), pegs[n-2].Centre()})
		}
	}
	v.callOut(names)
}

// numbers writes the numbers of the layers at the right, a leader from each.
func (v detailView) numbers() {
	for i, row := range v.rows() {
		from := drawing.Pt{X: v.box.X1 - 1, Y: v.middle(i)}
		end := drawing.Pt{X: v.box.X1 + detailName - 4, Y: row}
		v.Path(drawing.LayerDims, "", drawing.Circle(from, 0.5), nil, drawing.Filled(drawing.Black))
		v.Thin(drawing.LayerDims, from, drawing.Pt{X: end.X - 2, Y: row}, end)
		v.Write(end.Add(drawing.Pt{X: 1, Y: setting.Note / 2}), strconv.Itoa(i+1), setting.Note, drawing.Start)
	}
}

// middle is the height of the middle of layer i as it is drawn.
func (v detailView) middle(i int) float64 { return v.box.Y0 + v.len(v.depth(i)+v.drawn(i)/2) }

// rows are the heights of the layers' numbers: beside their layers or, where these are thinner than lettering,
// as far above as there is floor, and then below.
func (v detailView) rows() []float64 {
	out := make([]float64, len(v.layers))
	next := math.Inf(1)
	for i := range slices.Backward(out) {
		next = math.Min(next-numberRow, v.middle(i))
		out[i] = next
	}
	least := v.box.Y0
	for i := range out {
		out[i] = math.Max(out[i], least)
		least = out[i] + numberRow
	}
	return out
}

// A callout is a name with the place in the detail that it names.
type callout struct {
	name string
	at   drawing.Pt
}

// callOut writes names in a row under the floor, in order from the left, a
// leader from each to what it names. The last of names are left out where they have no room.
func (v detailView) callOut(names []callout) {
	const apart = 3.0
	left, right := v.box.X0-floorplan.Poche, v.box.X1
	if rows := v.rows(); v.numbered && rows[len(rows)-1] < v.box.Y1+1.5 {
		right += detailName // the numbers end above
	}
	wide := func(names []callout) (sum float64) {
		for _, n := range names {
			sum += fonts.Width(fonts.Lettering, n.name, setting.Note) + apart
		}
		return sum
	}
	for len(names) > 1 && wide(names)-apart > right-left {
		names = names[:len(names)-1]
	}
	slices.SortFunc(names, func(a, b callout) int { return cmp.Compare(a.at.X, b.at.X) })
	free := left
	if wide(names)-apart <= right-v.box.X0 {
		free = v.box.X0
	}
	for i, n := range names {
		w := fonts.Width(fonts.Lettering, n.name, setting.Note)
		x := math.Max(free, math.Min(n.at.X, v.box.X1-w/2)-w/2)
		x = math.Min(x, right+apart-wide(names[i:]))
		free = x + w + apart
		v.Thin(drawing.LayerDims, n.at, drawing.Pt{X: n.at.X, Y: v.box.Y1 + 1.5},
			drawing.Pt{X: math.Min(math.Max(n.at.X, x+1), x+w-1), Y: v.box.Y1 + 3.5})
		v.Write(drawing.Pt{X: x, Y: v.box.Y1 + 4 + setting.Note}, n.name, setting.Note, drawing.Start)
	}
}

// drawJoint draws the wall, the sealant and the open joint below it.
func (v detailView) drawJoint() {
	from, to := v.gap()
	end := v.box.Y0 + v.len(v.depth(v.holds+1))
	if v.wall {
		b := drawing.Box{X0: v.box.X0 - floorplan.Poche, Y0: v.box.Y0 - detailAbove + 1, X1: v.box.X0, Y1: end}
		v.Path(drawing.LayerFloor, "wall", drawing.Rectangle(b), nil, drawing.Filled(drawing.Poche))
		v.Path(drawing.LayerWalls, "wall", drawing.Polyline(drawing.Pt{X: b.X1, Y: b.Y0}, drawing.Pt{X: b.X1, Y: b.Y1}),
			drawing.WallLine(), nil)
	}
	seal := v.sealant()
	v.Path(drawing.LayerFixtures, "joint", drawing.Rectangle(drawing.Box{X0: from, Y0: seal.Y1, X1: to, Y1: end}),
		drawing.ThinLine(), drawing.Filled(drawing.White))
	v.Path(drawing.LayerFixtures, "sealant", drawing.Rectangle(seal), drawing.MediumLine(),
		drawing.Filled(drawing.Grey(0.5)))
	if r := seal.W() / 2; seal.Y1+2*r <= end {
		v.Path(drawing.LayerFixtures, "rod", drawing.Circle(drawing.Pt{X: seal.Centre().X, Y: seal.Y1 + r}, r),
			drawing.ThinLine(), nil)
	}
}

// sealant returns where it fills the joint.
func (v detailView) sealant() drawing.Box {
	from, to := v.gap()
	end := v.box.Y0 + v.len(v.depth(v.holds+1))
	return drawing.Box{X0: from, Y0: v.box.Y0, X1: to, Y1: math.Min(v.box.Y0+v.len(v.deep), end)}
}

// channel returns the height of the cable's centre line.
func (v detailView) channel() float64 {
	if v.loose {
		return v.box.Y0 + v.len(v.depth(v.holds+1)-stripHigh) - max(v.len(v.diameter)/2, 0.6)
	}
	return v.box.Y0 + v.len(v.depth(v.holds)+v.drawn(v.holds)/2)
}

// run returns where cable lies nearest to the joint.
func (v detailView) run() float64 { return v.origin() + v.len(v.clear) }

// origin is what the clearance is measured from.
func (v detailView) origin() float64 {
	if v.wall {
		return v.box.X0
	}
	return v.box.X0 + detailOther
}

func (v detailView) cables() {
	r := math.Max(v.len(v.diameter)/2, 0.6)
	v.Path(drawing.LayerCable, "heating cable", drawing.Circle(drawing.Pt{X: v.run(), Y: v.channel()}, r), nil,
		drawing.Filled(drawing.HeatRed))
	v.across(v.origin(), v.run())
}

// across dimensions the clearance above the surface.
func (v detailView) across(a, b float64) {
	y := v.box.Y0 - 3.4
	v.Thin(drawing.LayerDims, drawing.Pt{X: b, Y: v.channel()}, drawing.Pt{X: b, Y: y - 1.5})
	if !v.wall {
		v.Thin(drawing.LayerDims, drawing.Pt{X: a, Y: v.box.Y0 - 1}, drawing.Pt{X: a, Y: y - 1.5})
	}
	p, q := drawing.Pt{X: a, Y: y}, drawing.Pt{X: b, Y: y}
	v.Thin(drawing.LayerDims, p, q)
	v.Add(symbols.Arrowhead(p, drawing.Pt{X: -1})...)
	v.Add(symbols.Arrowhead(q, drawing.Pt{X: 1})...)
	text := v.fig.Textf("%s clear", v.fig.Fine().Length(v.clear))
	wide := fonts.Width(fonts.Lettering, text, setting.Note)
	if wide < b-a-1 {
		v.Write(p.Lerp(q, 0.5).Add(drawing.Pt{Y: -1}), text, setting.Note, drawing.Middle)
		return
	}
	at := drawing.Pt{X: b + 2, Y: y - 1}
	if last := v.right - wide; at.X > last {
		at = drawing.Pt{X: last, Y: y - 2} // over the line at the cable
	}
	v.Write(at, text, setting.Note, drawing.Start)
}

// drawHolding draws what holds the cable: a strip on either side, or pegs, and returns where pegs are.
func (v detailView) drawHolding() []drawing.Box {
	if !v.loose {
		return v.drawPegs()
	}
	for _, b := range v.boxes(v.holds) {
		b.Y0 = b.Y1 - v.len(stripHigh)
		v.Path(drawing.LayerMembrane, "strip", drawing.Rectangle(b), drawing.ThinLine(),
			drawing.Filled(drawing.Grey(0.4)))
	}
	return nil
}

// drawPegs draws the pegs between the channels in which cable lies, and returns
// where they are.
func (v detailView) drawPegs() []drawing.Box {
	if v.len(v.pitch) < leastPitch {
		return nil
	}
	var out []drawing.Box
	for _, box := range v.boxes(v.holds) {
		for _, b := range pegsIn(box, v.run(), v.len(v.pitch)) {
			v.Path(drawing.LayerMembrane, "peg", drawing.Rectangle(b), drawing.ThinLine(),
				drawing.Filled(drawing.Grey(0.4)))
			out = append(out, b)
		}
	}
	return out
}
