package sheets

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// keyFrom is the number of rooms from which a job gets a key plan.
const keyFrom = 2

// keyPlan shows all rooms of a job at one scale with their names, and what
// each feeds on. Rooms that the job places on one plane stay where they are;
// others, each measured from its own corner, are set side by side.
func keyPlan(p *layout.Plan) ([]*setting.Page, error) {
	if len(p.Rooms) < keyFrom {
		return nil, nil
	}
	at := roomPlaces(p.Rooms)
	var all []plane.Point
	for i, r := range p.Rooms {
		all = append(all, r.Job.Outline.Translate(at[i])...)
	}
	s := floorplan.Scene{
		Kind: kindNamed("key-plan"), Bounds: plane.Bounds(all), North: true,
		Border: func(float64) (left, right, top, bottom float64) { return 14, 14, 26, 14 },
		Draw:   func(v *floorplan.View) { keyRooms(v, at) },
		Levels: func(v *floorplan.View) []setting.Level {
			bs := []setting.Block{roomTable(v), legendOf(v), keyNotes(v, moved(at))}
			return []setting.Level{{Blocks: bs}, {Blocks: bs, Gain: setting.Never, Overflow: true}}
		},
	}
	return s.Alone(p)
}

// roomPlaces returns how each room is moved: not at all when no two overlap,
// else into rows.
func roomPlaces(rooms []layout.Room) []plane.Point {
	at := make([]plane.Point, len(rooms))
	if !overlapping(rooms) {
		return at
	}
	const gap = 1500 // mm of floor between rooms
	perRow := int(math.Ceil(math.Sqrt(float64(len(rooms)))))
	x, y, high := 0.0, 0.0, 0.0
	for i, r := range rooms {
		b := r.Job.Outline.Bounds()
		if i > 0 && i%perRow == 0 {
			x, y, high = 0, y-high-gap, 0
		}
		at[i] = plane.Pt(x-b.Min.X, y-b.Max.Y)
		x += b.W() + gap
		high = math.Max(high, b.H())
	}
	return at
}

func overlapping(rooms []layout.Room) bool {
	for i := range rooms {
		for k := range i {
			common, err := rooms[i].Floor.Meet(rooms[k].Floor)
			if err != nil || common.Area() > 1e4 {
				return true
			}
		}
	}
	return false
}

func moved(at []plane.Point) bool {
	for _, p := range at {
		if p != (plane.Point{}) {
			return true
		}
	}
	return false
}

// keyRooms draws the rooms as outlines with their heated areas and names.
func keyRooms(v *floorplan.View, at []plane.Point) {
	for i, r := range v.Plan.Rooms {
		ring := r.Job.Outline.Translate(at[i])
		pts := v.Paper.Pts(ring)
		v.Path(drawing.LayerWalls, r.Job.Name, drawing.Polygon(pts...), drawing.WallLine(), nil)
		v.Ink.Line(append(pts, pts[0]), lettering.SolidInk)
		for _, z := range r.Heated {
			var segs []drawing.Seg // what stands inside it is left white by the even-odd rule
			for _, ring := range append([]plane.Ring{z.Outer}, z.Holes...) {
				pts := v.Paper.Pts(ring.Translate(at[i]))
				v.Ink.Line(append(pts, pts[0]), lettering.ThinInk)
				segs = append(segs, drawing.Polygon(pts...)...)
			}
			v.Sign(signs.Limit, drawing.LayerFloor, "limit of the heated area", segs, drawing.ClearanceLine(),
				drawing.Filled(drawing.Grey(0.06)))
		}
		name := fmt.Sprintf("%d", i+1)
		box := drawing.BoxOf(pts...)
		l := &lettering.Label{Text: name + "  " + r.Job.Name, Face: fonts.LetteringBold, Height: drawing.H70, Rank: 1,
			Subject: box.Centre(), Note: name + " " + r.Job.Name}
		size := l.Sample(lettering.Spot{}).Box()
		for _, c := range append([]drawing.Pt{box.Centre()}, floorplan.GridIn(box, size.W(), size.H())...) {
			if floorplan.HoldsBox([][]drawing.Pt{pts}, c, size.W(), size.H()) {
				l.Spots = append(l.Spots, lettering.Spot{At: lettering.CentredOn(c, size),
					Cost: 0.05 * c.Dist(box.Centre())})
			}
		}
		l.Spots = append(l.Spots, lettering.Spot{At: drawing.Pt{X: box.Centre().X, Y: box.Y0 - 4}, Cost: 2})
		l.Spots = append(l.Spots, floorplan.LeaderSpots(box.Centre(), 0, size, 60)...)
		v.Letters.Add(l)
	}
}

// roomTable lists the rooms with their areas and loads.
func roomTable(v *floorplan.View) setting.Block {
	t := setting.Table{Head: v.Fig.Text("Rooms"), Cols: []setting.Column{
		{Head: v.Fig.Text("No."), Align: setting.Decimal}, {Head: v.Fig.Text("Room"), Wraps: true},
		{Head: v.Fig.Text("Cables"), Wraps: true},
		{Head: v.Fig.Textf("Floor %s", areaUnit(v)), Align: setting.Decimal, Group: true},
		{Head: v.Fig.Textf("Heated %s", areaUnit(v)), Align: setting.Decimal}, {Head: "W", Align: setting.Decimal,
			Group: true},
		{Head: "A", Align: setting.Decimal},
	}}
	floor, heated, load := 0.0, 0.0, 0.0
	for i := range v.Plan.Rooms {
		r := &v.Plan.Rooms[i]
		watts, amps := "-", "-"
		for _, l := range v.Plan.Load {
			if l.Room == r.Job.Name {
				watts, amps = v.Fig.Plain(l.Watts), v.Fig.AmpsFigure(l.Amps)
				load += l.Watts
			}
		}
		floor, heated = floor+r.Floor.Area(), heated+r.Heated.Area()
		t.Rows = append(t.Rows, setting.Row(strconv.Itoa(i+1), r.Job.Name, strings.Join(ids(r), ", "),
			area(v, r.Floor.Area()), area(v, r.Heated.Area()), watts, amps))
	}
	// amps of different voltages have no sum
	total := setting.Row("", v.Fig.Text("All"), "", area(v, floor), area(v, heated), v.Fig.Plain(load), "-")
	for i := range total {
		total[i].Strong = true
	}
	t.Rows = append(t.Rows, total)
	return t
}

// area writes an area without its unit, as exactly as a cable plan does.
func area(v *floorplan.View, mm2 float64) string {
	return v.Fig.Figure(say.AreaFigure(mm2, v.Fig.Units))
}

func areaUnit(v *floorplan.View) string {
	if v.Fig.Units == plane.Inches {
		return v.Fig.Text("ft²")
	}
	return "m²"
}

func keyNotes(v *floorplan.View, apart bool) setting.Block {
	l := setting.List{Head: v.Fig.Text("Notes"), Number: 1}
	l.Paras = append(l.Paras, v.Noted...)
	if apart {
		l.Paras = append(l.Paras, v.Fig.Text("Rooms are set side by side: where they lie in the building is not "+
			"shown."))
	}
	l.Paras = append(l.Paras, v.Plan.Job.Notes...)
	return l
}
