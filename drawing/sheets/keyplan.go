package sheets

import (
	"fmt"
	"math"
	"strings"

	"oxturn/drawing"
	"oxturn/fonts"
	"oxturn/layout"
	"oxturn/layout/plane"
)

// keyFrom is the number of rooms from which a job gets a key plan.
const keyFrom = 3

// keyPlan shows all rooms of a job at one scale with their names, and what
// each feeds on. Rooms that the job places on one plane stay where they are;
// others, each measured from its own corner, are set side by side.
func keyPlan(p *layout.Plan) ([]*page, error) {
	if len(p.Rooms) < keyFrom {
		return nil, nil
	}
	at := roomPlaces(p.Rooms)
	var all []plane.Point
	for i, r := range p.Rooms {
		all = append(all, r.Job.Outline.Translate(at[i])...)
	}
	s := scene{
		Kind: kindNamed("key-plan"), bounds: plane.Bounds(all), north: true,
		border: func(float64) (left, right, top, bottom float64) { return 14, 14, 26, 14 },
		draw:   func(v *roomView) { v.keyRooms(at) },
		levels: func(v *roomView) []level {
			bs := []block{v.roomTable(), legendOf(v.used), keyNotes(v, moved(at))}
			return []level{{blocks: bs}, {blocks: bs, gain: never, overflow: true}}
		},
	}
	return s.pages(p)
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
func (v *roomView) keyRooms(at []plane.Point) {
	for i, r := range v.plan.Rooms {
		ring := r.Job.Outline.Translate(at[i])
		pts := v.view.Pts(ring)
		v.path(drawing.LayerWalls, r.Job.Name, drawing.Polygon(pts...), drawing.WallLine(), nil)
		v.ink.line(append(pts, pts[0]), solidInk)
		for _, z := range r.Heated {
			var segs []drawing.Seg // what stands inside it is left white by the even-odd rule
			for _, ring := range append([]plane.Ring{z.Outer}, z.Holes...) {
				pts := v.view.Pts(ring.Translate(at[i]))
				v.ink.line(append(pts, pts[0]), thinInk)
				segs = append(segs, drawing.Polygon(pts...)...)
			}
			v.sign(signLimit, drawing.LayerFloor, "limit of the heated area", segs, drawing.ClearanceLine(), drawing.Filled(drawing.Grey(0.06)))
		}
		name := fmt.Sprintf("%d", i+1)
		box := drawing.BoxOf(pts...)
		l := &label{text: name + "  " + r.Job.Name, face: fonts.LetteringBold, height: drawing.H70, rank: 1, subject: box.Centre(), note: name + " " + r.Job.Name}
		size := l.sample(spot{}).Box()
		for _, c := range append([]drawing.Pt{box.Centre()}, gridIn(box, size.W(), size.H())...) {
			if holdsBox([][]drawing.Pt{pts}, c, size.W(), size.H()) {
				l.spots = append(l.spots, spot{at: centredOn(c, size), cost: 0.05 * c.Dist(box.Centre())})
			}
		}
		l.spots = append(l.spots, spot{at: drawing.Pt{X: box.Centre().X, Y: box.Y0 - 4}, cost: 2})
		l.spots = append(l.spots, leaderSpots(box.Centre(), 0, size, 60)...)
		v.letters.add(l)
	}
}

// roomTable lists the rooms with their areas and loads.
func (v *roomView) roomTable() block {
	t := table{head: "Rooms", cols: []column{
		{head: "No.", align: decimal}, {head: "Room", wraps: true}, {head: "Cables", wraps: true}, {head: "Floor " + v.areaUnit(), align: decimal, group: true},
		{head: "Heated " + v.areaUnit(), align: decimal}, {head: "W", align: decimal, group: true}, {head: "A", align: decimal},
	}}
	floor, heated, load := 0.0, 0.0, 0.0
	for i := range v.plan.Rooms {
		r := &v.plan.Rooms[i]
		watts, amps := "-", "-"
		for _, l := range v.plan.Load {
			if l.Room == r.Job.Name {
				watts, amps = fmt.Sprintf("%g", l.Watts), fmt.Sprintf("%.2f", l.Amps)
				load += l.Watts
			}
		}
		floor, heated = floor+r.Floor.Area(), heated+r.Heated.Area()
		t.rows = append(t.rows, row(itoa(i+1), r.Job.Name, strings.Join(ids(r), ", "), v.area(r.Floor.Area()), v.area(r.Heated.Area()), watts, amps))
	}
	// amps of different voltages have no sum
	total := row("", "All", "", v.area(floor), v.area(heated), fmt.Sprintf("%g", load), "-")
	for i := range total {
		total[i].strong = true
	}
	t.rows = append(t.rows, total)
	return t
}

// area writes an area without its unit, as exactly as a cable plan does.
func (v *roomView) area(mm2 float64) string {
	if v.fig.units == plane.Inches {
		return fmt.Sprintf("%.1f", plane.Inches.Area(mm2))
	}
	return fmt.Sprintf("%.2f", plane.Millimetres.Area(mm2))
}

func (v *roomView) areaUnit() string {
	if v.fig.units == plane.Inches {
		return "ft²"
	}
	return "m²"
}

func keyNotes(v *roomView, apart bool) block {
	l := list{head: "Notes", number: 1}
	l.paras = append(l.paras, v.noted...)
	if apart {
		l.paras = append(l.paras, "Rooms are set side by side: where they lie in the building is not shown.")
	}
	l.paras = append(l.paras, v.plan.Job.Notes...)
	return l
}
