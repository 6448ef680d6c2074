package sheets

import (
	"cmp"
	"math"
	"slices"
	"strconv"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A warmFloor is a picture of a room's settled floor, as warm as it is from place to place:
// in steps with a lettered line between each and the next, what is warmer darker. It
// is drawn to fill its column, at no scale.
type warmFloor struct {
	head  string
	fig   say.Figures
	room  *layout.Room
	state layout.FloorState
	words string  // below the picture
	high  float64 // of the floor at most, mm on paper
	small bool    // the words below it in fine print
}

// Sizes of the picture, mm on paper.
const (
	warmHigh   = 78.0 // of the floor at most
	warmSmall  = 49.0 // likewise on small paper
	warmSide   = 4.5  // room round it for the letters of walls
	warmBar    = 3.0  // height of the scale of temperatures
	warmLabels = 25.0 // of a line that carries its figure, at least
	warmFine   = 0.05 // that a line may stray from the contour
	mostBands  = 6
)

// warmFloors are the pictures of all rooms of which the warmth is known: of the cold case and,
// where that differs, of the hot one; on small paper of that only the figures.
func warmFloors(p *layout.Plan) (out []setting.Block) {
	f, high := p.Job.Figures(), warmHigh
	if onSmall(p) {
		high = warmSmall
	}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		if !hasPicture(r) {
			continue
		}
		m := warmFloor{head: f.Text("Warm floor"), fig: f, room: r, state: r.Warm.Cold, words: warmWords(r, f),
			high: high, small: onSmall(p)}
		if len(p.Rooms) > 1 {
			m.head += f.Textf(" of %s", r.Job.Name)
		}
		if m.head += f.Text(", settled"); r.Warm.Alike() {
			out = append(out, m)
			continue
		}
		hot := m
		hot.head, hot.state = f.Textf("%s, at most", m.head), r.Warm.Hot
		hot.words = f.Textf("Room at %s. For both cases see what these figures rest on.",
			floorplan.UnbrokenWords(f.Figure(say.Degrees(r.Warm.Hot.Air, f.Units))))
		m.head += f.Text(", at least")
		if out = append(out, m); !onSmall(p) {
			out = append(out, hot)
		}
	}
	return out
}

// hasPicture reports whether a room's floor has a picture: its warmth is known, and
// somewhere on it a foot can stand.
func hasPicture(r *layout.Room) bool { return r.Warm != nil && r.Warm.Cold.Coldest != nil }

// allPictured reports whether all heated floors of a job have pictures.
func allPictured(p *layout.Plan) bool {
	return !slices.ContainsFunc(p.Rooms, func(r layout.Room) bool { return len(r.Cables) > 0 && !hasPicture(&r) })
}

// warmWords sum a floor up, in the hot case too where that is another, and say what the
// picture is of and leaves out.
func warmWords(r *layout.Room, f say.Figures) string {
	pair := func(write func(layout.FloorState) string) string {
		cold, hot := write(r.Warm.Cold), write(r.Warm.Hot)
		if cold == hot {
			return floorplan.UnbrokenWords(cold)
		}
		return f.Textf("%s to %s", floorplan.UnbrokenWords(cold), floorplan.UnbrokenWords(hot))
	}
	at := func(c float64) string { return f.Figure(say.Degrees(c, f.Units)) }
	of := f.Text("Heated floor")
	if !r.Warm.Alike() {
		of += f.Text(", at least to at most")
	}
	return f.Textf("%s: mean %s, standard deviation %s; coldest place to stand, %s wide, %s. Left on, room at %s; "+
		"no rugs or sun.", of,
		pair(func(s layout.FloorState) string { return at(s.Mean) }),
		pair(func(s layout.FloorState) string { return f.Figure(say.Difference(s.Spread, f.Units)) }),
		floorplan.UnbrokenWords(f.Apart(math.Round(r.Warm.Spot))),
		pair(func(s layout.FloorState) string { return at(s.Coldest.Celsius) }),
		floorplan.UnbrokenWords(f.Figure(say.Degrees(r.Warm.Cold.Air, f.Units))))
}

// bounds are the floor's, turned as its plans are.
func (m warmFloor) bounds() plane.Rect { return floorplan.TurnedBounds(m.room.Job) }

// ratio is how many mm of floor go on one of paper in a column.
func (m warmFloor) ratio(w float64) float64 {
	b := m.bounds()
	return math.Max(b.W()/(w-2*warmSide), b.H()/m.high)
}

// Height is what the floor with its scale of temperatures takes at a width of w, both mm of paper.
func (m warmFloor) Height(ty *setting.Typesetter, w float64) float64 {
	return ty.HeadingHeight(m.head, w) + m.bounds().H()/m.ratio(w) + 2*warmSide + warmBar + setting.Leading + 2 +
		m.below().Height(ty, w)
}

// Set draws the floor with its scale of temperatures from at, the upper left corner, w mm wide.
func (m warmFloor) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, m.head, w)
	k := m.ratio(w)
	field := drawing.Box{X0: at.X, Y0: y, X1: at.X + w, Y1: y + m.bounds().H()/k + 2*warmSide}
	v := warmView{m, pg, drawing.NewTurnedView(m.bounds(), field, k, floorplan.Right(m.room.Job)),
		lettering.New(field), m.steps()}
	v.draw()
	y = field.Y1
	v.bar(drawing.Pt{X: at.X, Y: y}, w)
	m.below().Set(pg, drawing.Pt{X: at.X, Y: y + warmBar + setting.Leading + 2}, w)
}

// below are the words under the picture.
func (m warmFloor) below() setting.List { return setting.List{Paras: []string{m.words}, Fine: m.small} }

// steps are the temperatures of the lines, in the sheet's degrees: whole ones, alike far
// apart, between the coldest and the warmest place.
func (m warmFloor) steps() []float64 {
	low, high := temperature(m.fig, m.state.Coldest.Celsius), temperature(m.fig, m.state.Warmest.Celsius)
	apart := []float64{1, 2, 5, 10, 20, 50}
	if m.fig.Units == plane.Inches {
		apart = apart[1:]
	}
	for _, a := range apart {
		var out []float64
		for t := (math.Floor(low/a) + 1) * a; t < high; t += a {
			out = append(out, t)
		}
		if len(out) < mostBands {
			return out
		}
	}
	return nil
}

// celsius turns a temperature in the sheet's degrees back.
func (m warmFloor) celsius(t float64) float64 {
	if m.fig.Units == plane.Inches {
		return (t - say.Freezing) / say.Fahrenheits
	}
	return t
}

// A warmView draws a warmFloor on a page.
type warmView struct {
	warmFloor
	*setting.Page
	paper   drawing.View
	letters *lettering.Labels
	steps   []float64
}

// tint is the colour of a step, the coldest being 0: as light as lettering needs, and darker
// from step to step on a grey printer too.
func (v warmView) tint(i int) drawing.Colour {
	t := 0.0
	if n := len(v.steps); n > 0 {
		t = float64(i) / float64(n)
	}
	mix := func(cold, warm float64) uint8 { return uint8(math.Round(cold + (warm-cold)*t)) }
	return drawing.Colour{R: mix(255, 226), G: mix(250, 140), B: mix(242, 100)}
}

// draw paints the steps over one another, each where it is so warm or warmer, covers what
// is no floor, and draws the room over it.
func (v warmView) draw() {
	floor := v.paper.Outline(v.room.Tiled)
	v.Path(drawing.LayerFloor, "floor", floor, nil, drawing.Filled(v.tint(0)))
	for i, t := range v.steps {
		var segs []drawing.Seg
		var lines [][]drawing.Pt
		for _, ring := range v.state.Raster.Contours(v.state.Spots, v.celsius(t)) {
			if ring = ring.Simplified(warmFine * v.paper.Ratio); ring != nil {
				pts := v.paper.Pts(ring)
				segs, lines = append(segs, drawing.Polygon(pts...)...), append(lines, append(pts, pts[0]))
			}
		}
		v.figures(strconv.FormatFloat(t, 'f', 0, 64), lines)
		v.Path(drawing.LayerFloor, "as warm as "+strconv.FormatFloat(t, 'f', 0, 64)+" "+degree(v.fig), segs,
			&drawing.Stroke{Width: drawing.W018}, drawing.Filled(v.tint(i+1)))
	}
	around := drawing.Rectangle(v.letters.Field.Grow(-0.5))
	v.Path(drawing.LayerFloor, "no floor", append(around, floor...), nil, drawing.Filled(drawing.White))
	v.standing()
	for _, c := range v.room.Cables {
		v.Path(drawing.LayerHatch, "heating cable "+c.ID, drawing.Rounded(v.paper.Pts(c.Path),
			v.paper.Len(c.BendRadius)), &drawing.Stroke{Width: drawing.W013, Colour: drawing.Grey(0.55)}, nil)
	}
	v.walls()
	v.place(v.fig.Text("coldest"), v.state.Coldest)
	v.place(v.fig.Text("warmest"), v.state.Warmest)
	v.letters.Place()
	items, _ := v.letters.Drawn()
	v.Add(items...)
}

// standing draws what stands on the floor, without its names.
func (v warmView) standing() {
	for _, s := range v.room.Job.Stands() {
		if s.Open {
			continue
		}
		pts := v.paper.Pts(s.Outline)
		v.Path(drawing.LayerFixtures, s.Name, drawing.Polygon(pts...), drawing.ThinLine(),
			drawing.Filled(drawing.White))
		v.letters.Ink.Line(append(pts, pts[0]), lettering.ThinInk)
	}
}

// walls draws the room's faces, with the letters of those that are long enough.
func (v warmView) walls() {
	for _, w := range v.room.Job.Walls {
		line := v.paper.Pts([]plane.Point{w.A, w.B})
		v.Path(drawing.LayerWalls, "wall "+w.Letter, drawing.Polyline(line...), drawing.MediumLine(), nil)
		v.letters.Ink.Line(line, lettering.SolidInk)
		if line[0].Dist(line[1]) < floorplan.LetterLeast || w.Arc != nil {
			continue
		}
		l := &lettering.Label{Text: w.Letter, Face: fonts.LetteringBold, Height: drawing.H25, Rank: 2, Option: true}
		size := l.Sample(lettering.Spot{}).Box()
		out := v.paper.Dir(v.room.Job.Outline.Outward(w.Segment))
		for i, t := range []float64{0.5, 0.35, 0.65, 0.2, 0.8} {
			c := line[0].Lerp(line[1], t).Add(out.Mul(2.4))
			l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(c, size), Cost: float64(i)})
		}
		v.letters.Add(l)
	}
}

// figures ask for the temperature of lines on the longest two of them, where they are on the
// floor and long enough.
func (v warmView) figures(text string, lines [][]drawing.Pt) {
	slices.SortStableFunc(lines, func(a, b []drawing.Pt) int {
		return cmp.Compare(plane.PathLength(b), plane.PathLength(a))
	})
	for i, line := range lines {
		v.letters.Ink.Line(line, lettering.ThinInk)
		l := &lettering.Label{Text: text, Height: drawing.H25, Rank: 3, Option: true}
		for _, p := range line {
			if v.standable(v.paper.Floor(p)) {
				l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(p, l.Sample(lettering.Spot{}).Box())})
			}
		}
		if i < 2 && len(l.Spots) > 0 && plane.PathLength(line) >= warmLabels {
			v.letters.Add(l)
		}
	}
}

// standable reports whether a place is open floor, some way off its edge.
func (v warmView) standable(at plane.Point) bool {
	if v.room.Tiled.Depth(at) < 1.5*v.paper.Ratio {
		return false
	}
	return !slices.ContainsFunc(v.room.Job.Stands(), func(s job.Stand) bool {
		return !s.Open && s.Outline.Contains(at)
	})
}

// place marks a place with its temperature.
func (v warmView) place(name string, spot *layout.FloorSpot) {
	at := v.paper.Pt(spot.At)
	v.Path(drawing.LayerMarks, name+" place to stand", drawing.Circle(at, 0.7), &drawing.Stroke{Width: drawing.W018,
		Colour: drawing.White}, drawing.Filled(drawing.Black))
	v.letters.Ink.Mark(drawing.BoxOf(at).Grow(0.8))
	text := name + " " + v.fig.Tenths(temperature(v.fig, spot.Celsius))
	v.letters.Add(&lettering.Label{Text: text, Height: drawing.H25, Rank: 1, Subject: at, Option: true,
		Spots: floorplan.TagSpots(at, 0.8, text)})
}

// bar is the scale of temperatures, each line's figure where it parts two steps.
func (v warmView) bar(at drawing.Pt, w float64) {
	n := len(v.steps) + 1
	wide := math.Min(12, (w-8)/float64(n))
	for i := range n {
		b := drawing.Box{X0: at.X + float64(i)*wide, Y0: at.Y, X1: at.X + float64(i+1)*wide, Y1: at.Y + warmBar}
		v.Path(drawing.LayerMarks, "", drawing.Rectangle(b), drawing.ThinLine(), drawing.Filled(v.tint(i)))
		if i < n-1 {
			v.Write(drawing.Pt{X: b.X1, Y: b.Y1 + 1 + setting.Note}, strconv.FormatFloat(v.steps[i], 'f', 0, 64),
				setting.Note, drawing.Middle)
		}
	}
	v.Write(drawing.Pt{X: at.X + float64(n)*wide + 1.5, Y: at.Y + warmBar/2 + setting.Note/2}, degree(v.fig),
		setting.Note, drawing.Start)
}
