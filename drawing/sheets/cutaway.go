package sheets

import (
	"math"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
)

// A cutaway shows the layers of a floor in isometric projection as they lie on one another at a
// wall, each cut back so that the one below is seen, with what lies in the membrane: loops of
// cable, the lead joint, and the sensor midway between two runs. Leads and tubes come from the
// box under the layers above. It is at no scale: thin layers could not be seen.
type cutaway struct {
	layers []job.Layer
	holds  int  // the layer with the cable
	strips bool // they hold it, not pegs
}

// cutaways returns the picture of a job whose layers and box are known.
func cutaways(p *layout.Plan) []setting.Block {
	holds := sectionOf(p).holds
	if holds < 1 || !wired(p) { // nothing above the cable, or no box that its lead comes from
		return nil
	}
	return []setting.Block{cutaway{p.Job.BuildUp, holds, p.Job.Strips != nil}}
}

const cutawayHead = "The floor cut open, not to scale"

// Sizes of the picture in its own unit, of which cutawayWide go across it: the piece of floor along
// the wall, what is seen of each layer before the next begins, and the wall's height.
const (
	cutAlong = 96.0
	cutStep  = 15.0
	cutLoops = 24.0 // the same of the layer with the cable
	cutBack  = 16.0 // of the uppermost
	cutWall  = 52.0
	cutRuns  = 11.0 // from run to run
	cutThin  = 2.5  // the thinnest a layer is shown, and how much thicker the thickest
	cutMore  = 6.0
)

// cutBelow is what the number of the lowest layer takes below the picture, mm on paper.
const cutBelow = setting.Note + 2

// cutNames is the room that names take at the left below the picture, mm on paper.
const cutNames = 4 * setting.Leading

// shown is how thick layer i is drawn: by the root of its thickness, against the thickest.
func (c cutaway) shown(i int) float64 {
	most := 0.0
	for _, l := range c.layers {
		most = math.Max(most, l.Thickness)
	}
	return cutThin + cutMore*math.Sqrt(c.layers[i].Thickness/most)
}

// edge is how far from the wall layer i is cut.
func (c cutaway) edge(i int) float64 {
	at := cutBack
	for k := 1; k <= i; k++ {
		if at += cutStep; k == c.holds {
			at += cutLoops - cutStep
		}
	}
	return at
}

// top is the height of layer i over the underside of the lowest.
func (c cutaway) top(i int) float64 {
	h := 0.0
	for k := len(c.layers) - 1; k >= i; k-- {
		h += c.shown(k)
	}
	return h
}

// An isometric view puts a place along the wall, off it and above the lowest layer on paper.
type isometric struct {
	origin drawing.Pt
	k      float64 // mm of paper a unit
}

var cos30 = math.Sqrt(3) / 2

func (v isometric) at(along, off, up float64) drawing.Pt {
	return v.origin.Add(drawing.Pt{X: (along - off) * cos30, Y: (along+off)/2 - up}.Mul(v.k))
}

// view fits the picture into a width from a place on, and returns how high it is.
func (c cutaway) view(at drawing.Pt, w float64) (v isometric, high float64) {
	deep, numbers := c.edge(len(c.layers)-1), 8.0
	v.k = (w - numbers) / ((cutAlong + deep) * cos30)
	above := c.top(0) + cutWall
	v.origin = at.Add(drawing.Pt{X: deep * cos30 * v.k, Y: above * v.k})
	return v, (above + (cutAlong+deep)/2) * v.k
}

func (c cutaway) Height(ty *setting.Typesetter, w float64) float64 {
	_, high := c.view(drawing.Pt{}, w)
	return ty.HeadingHeight(ty.Text(cutawayHead), w) + high + cutBelow
}

func (c cutaway) Set(pg *setting.Page, at drawing.Pt, w float64) {
	top := at.Y + setting.SetHeading(pg, at, pg.Ty.Text(cutawayHead), w)
	v, high := c.view(drawing.Pt{X: at.X, Y: top}, w)
	c.wall(pg, v)
	for i := len(c.layers) - 1; i >= 0; i-- {
		c.layer(pg, v, i)
		if i == c.holds {
			c.holding(pg, v)
			c.cable(pg, v)
		}
	}
	c.fromBox(pg, v)
	c.names(pg, v, drawing.Pt{X: at.X, Y: top + high - cutNames})
}

// shownFace fills and draws a plane piece of the picture.
func shownFace(pg *setting.Page, l drawing.Layer, title string, fill drawing.Colour, pts ...drawing.Pt) {
	pg.Path(l, title, drawing.Polygon(pts...), drawing.MediumLine(), drawing.Filled(fill))
}

func (c cutaway) wall(pg *setting.Page, v isometric) {
	foot, head := c.top(0), c.top(0)+cutWall
	shownFace(pg, drawing.LayerWalls, pg.Ty.Text("wall"), drawing.White, v.at(0, 0, foot), v.at(cutAlong, 0, foot),
		v.at(cutAlong, 0, head), v.at(0, 0, head))
}

// layer draws a layer's top and the two faces that it is cut at.
func (c cutaway) layer(pg *setting.Page, v isometric, i int) {
	up, down, edge := c.top(i), c.top(i)-c.shown(i), c.edge(i)
	name := layerName(c.layers[i], pg.Ty.Language)
	fill := drawing.White
	if i == c.holds {
		fill = signs.CutGrey
	}
	shownFace(pg, drawing.LayerFloor, name, fill, v.at(0, 0, up), v.at(cutAlong, 0, up), v.at(cutAlong, edge, up),
		v.at(0, edge, up))
	for _, cut := range [][]drawing.Pt{
		{v.at(0, edge, up), v.at(cutAlong, edge, up), v.at(cutAlong, edge, down), v.at(0, edge, down)},
		{v.at(cutAlong, 0, up), v.at(cutAlong, edge, up), v.at(cutAlong, edge, down), v.at(cutAlong, 0, down)},
	} {
		shownFace(pg, drawing.LayerFloor, "", drawing.Poche, cut...)
	}
}

// loops is where cable is seen: from the edge of the layer above to near its own.
func (c cutaway) loops() (from, to float64) {
	return c.edge(c.holds - 1), c.edge(c.holds) - 4
}

// runAt is where run k lies along the wall. Runs 0 to 3 are two loops; cable begins on run 5.
func runAt(k float64) float64 { return 14 + k*cutRuns }

// sensorRun is midway between the runs of two loops, and joint how far from the wall a lead joint
// lies in the strip that is seen.
const sensorRun = 1.5

func (c cutaway) joint() drawing.Pt {
	from, to := c.loops()
	return drawing.Pt{X: runAt(5), Y: (from + to) / 2}
}

// holding draws what holds the cable.
func (c cutaway) holding(pg *setting.Page, v isometric) {
	if !c.strips {
		c.pegs(pg, v)
		return
	}
	from, to := c.loops()
	for _, off := range []float64{from + 4, to - cutRuns/2 - 2} {
		up := c.top(c.holds)
		pg.Path(drawing.LayerMembrane, "strip", drawing.Polyline(v.at(runAt(0)-cutRuns/2, off, up),
			v.at(cutAlong-2, off, up)), drawing.StripLine(), nil)
	}
}

func (c cutaway) pegs(pg *setting.Page, v isometric) {
	from, _ := c.loops()
	up, end := c.top(c.holds), c.edge(c.holds)
	const pitch, radius = cutRuns / 2, 1.3
	for along := runAt(0) - cutRuns*0.75; along < cutAlong-radius; along += pitch {
		for off := from + pitch/2; off < end-radius; off += pitch {
			var ring []drawing.Pt
			for k := range 12 {
				sin, cos := math.Sincos(float64(k) * math.Pi / 6)
				ring = append(ring, v.at(along+radius*cos, off+radius*sin, up))
			}
			pg.Path(drawing.LayerMembrane, "", drawing.Polygon(ring...), drawing.ThinLine(), nil)
		}
	}
}

// cable draws two loops of runs that go on under the layers above, the joint and the run after it,
// and the end of the sensor's tube.
func (c cutaway) cable(pg *setting.Page, v isometric) {
	from, to := c.loops()
	up := c.top(c.holds)
	loop := func(k, begin float64) {
		var pts []drawing.Pt
		pts = append(pts, v.at(runAt(k), begin, up))
		for i := range 9 { // a half circle from run to run
			sin, cos := math.Sincos(math.Pi * float64(i) / 8)
			pts = append(pts, v.at(runAt(k+0.5)-cutRuns/2*cos, to-cutRuns/2+cutRuns/2*sin, up))
		}
		pts = append(pts, v.at(runAt(k+1), from, up))
		pg.Path(drawing.LayerCable, "heating cable", drawing.Polyline(pts...), drawing.CableLine(), nil)
	}
	loop(0, from)
	loop(2, from)
	j := c.joint()
	loop(5, j.Y)
	pg.Path(drawing.LayerLeads, "cold lead", drawing.Polyline(v.at(j.X, from, up), v.at(j.X, j.Y, up)),
		drawing.ColdLeadLine(), nil)
	const long, wide = 2.2, 1.1 // to either side
	pg.Path(drawing.LayerMarks, "lead joint", drawing.Polygon(v.at(j.X-wide, j.Y-long, up),
		v.at(j.X+wide, j.Y-long, up),
		v.at(j.X+wide, j.Y+long, up), v.at(j.X-wide, j.Y+long, up)), nil, drawing.Filled(drawing.Black))
	tip := v.at(runAt(sensorRun), j.Y, up)
	pg.Path(drawing.LayerSensors, "sensor in its tube", drawing.Polyline(v.at(runAt(sensorRun), from, up), tip),
		drawing.SensorLeadLine(), nil)
	pg.Path(drawing.LayerSensors, "", drawing.Circle(tip, 0.8), nil, drawing.Filled(drawing.SensorBlue))
}

// fromBox draws the box on the wall, and the lead and the tube that come from it: in the wall, then
// under the layers above the cable, where they are hidden.
func (c cutaway) fromBox(pg *setting.Page, v isometric) {
	const wide, tall, apart = 9.0, 11.0, 3.0
	foot, up := c.top(0), c.top(c.holds)
	box := drawing.Pt{X: runAt(3.25), Y: foot + 0.6*cutWall}
	shownFace(pg, drawing.LayerMarks, pg.Ty.Text("box"), drawing.White, v.at(box.X-wide/2, 0, box.Y),
		v.at(box.X+wide/2, 0, box.Y),
		v.at(box.X+wide/2, 0, box.Y+tall), v.at(box.X-wide/2, 0, box.Y+tall))
	from, _ := c.loops()
	for _, way := range []struct {
		layer drawing.Layer
		side  float64
		to    float64
	}{{drawing.LayerSensors, -apart, runAt(sensorRun)}, {drawing.LayerLeads, apart, runAt(5)}} {
		at := box.X + way.side
		pg.Path(way.layer, "", drawing.Polyline(v.at(at, 0, box.Y), v.at(at, 0, up), v.at(way.to, from*0.5, up),
			v.at(way.to, from, up)), drawing.HiddenLine(), nil)
	}
}

// names numbers the layers as their table does, and names what lies in them, with leaders, in the
// white at the left below the picture.
func (c cutaway) names(pg *setting.Page, v isometric, at drawing.Pt) {
	for i := range c.layers {
		off := c.edge(i) - cutStep/2
		below := v.at(cutAlong, off, 0).Add(drawing.Pt{X: 3, Y: 1})
		pg.Thin(drawing.LayerDims, v.at(cutAlong, off, c.top(i)-c.shown(i)/2), below)
		pg.Write(below.Add(drawing.Pt{X: 0.6, Y: setting.Note}), strconv.Itoa(i+1), setting.Note, drawing.Start)
	}
	j, up := c.joint(), c.top(c.holds)
	_, to := c.loops()
	for i, n := range []struct {
		text string
		at   drawing.Pt
	}{{pg.Ty.Text("cable"), v.at(runAt(0.5), to, up)}, {pg.Ty.Text("sensor"), v.at(runAt(sensorRun), j.Y, up)},
		{pg.Ty.Text("lead joint"), v.at(j.X, j.Y, up)}} {
		y := at.Y + float64(i+1)*setting.Leading
		pg.Write(drawing.Pt{X: at.X, Y: y}, n.text, setting.Note, drawing.Start)
		w := (&drawing.Text{Text: n.text, Height: setting.Note}).Box().W()
		pg.Thin(drawing.LayerDims, drawing.Pt{X: at.X + w + 1, Y: y - setting.Note/2}, n.at)
	}
	box := v.at(runAt(3.25)-4.5, 0, c.top(0)+0.6*cutWall+8)
	text := drawing.Pt{X: at.X, Y: box.Y}
	name := &drawing.Text{Text: pg.Ty.Text("box"), Height: setting.Note}
	pg.Write(text, name.Text, setting.Note, drawing.Start)
	pg.Thin(drawing.LayerDims, drawing.Pt{X: at.X + name.Box().W() + 1, Y: text.Y - setting.Note/2}, box)
}
