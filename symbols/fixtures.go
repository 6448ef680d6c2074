package symbols

import "oxturn/drawing"

// Fixture returns the plan outline of a fixture of a kind, w mm along its back
// and d mm into the room: "toilet", "vanity", "tub", "shower", "cabinet",
// "appliance", "island", "column", "hearth", "drain" or "register". Any other
// kind is a plain rectangle. The outline fills w x d and does not leave it.
func Fixture(kind string, w, d float64) []Shape {
	draw, ok := fixtureShapes[kind]
	if !ok {
		return []Shape{edge(rect(0, 0, w, d))}
	}
	return draw(w, d)
}

var fixtureShapes = map[string]func(w, d float64) []Shape{
	"toilet": toilet, "vanity": vanity, "tub": tub, "shower": shower, "cabinet": cabinet, "appliance": appliance,
	"island": island, "column": column, "hearth": hearth, "drain": drain, "register": register,
}

// toilet is a tank along the back and a bowl with its seat before it.
func toilet(w, d float64) []Shape {
	tank := d * 0.27
	bowl := (d - tank) / 2 // half its length
	half := w * 0.42
	y := tank + bowl
	return []Shape{
		edge(softRect(0, 0, w, tank, w*0.06)),
		edge(oval(w/2, y, half, bowl)),
		fine(oval(w/2, y+bowl*0.04, half*0.62, bowl*0.64)...),
		fine(circle(w/2, tank/2, min(tank, w)*0.12)...),
	}
}

// vanity is a counter with an oval basin, or two when it is wide enough.
func vanity(w, d float64) []Shape {
	const wideForTwo = 1400 // mm: two people side by side, common practice
	shapes := []Shape{edge(rect(0, 0, w, d))}
	basins := 1
	if w >= wideForTwo {
		basins = 2
	}
	share := w / float64(basins)
	for i := range basins {
		x, tap := share*(float64(i)+0.5), min(d, share)*0.045
		shapes = append(shapes,
			fine(oval(x, d*0.54, min(share*0.36, 260), d*0.31)...),
			fine(circle(x, d*0.54, tap)...),
			fine(circle(x, d*0.12, tap)...))
	}
	return shapes
}

// drainIn rims from its end a tub has its drain.
const drainIn = 2.6

// tub is a rim with a basin in it, and a drain at the end of the long side.
func tub(w, d float64) []Shape {
	rim := min(w, d) * 0.09
	x, y := rim*drainIn, d/2
	if d > w {
		x, y = w/2, rim*drainIn
	}
	return []Shape{
		edge(rect(0, 0, w, d)),
		fine(softRect(rim, rim, w-rim, d-rim, min(w, d)*0.2)...),
		fine(circle(x, y, min(w, d)*0.035)...),
	}
}

// shower is a tray whose falls run to the drain in the middle.
func shower(w, d float64) []Shape {
	r := min(w, d) * 0.06
	x, y := w/2, d/2
	cut := func(cx, cy float64) []drawing.Seg {
		c, p := drawing.Pt{X: x, Y: y}, drawing.Pt{X: cx, Y: cy}
		return drawing.Polyline(p, c.Add(p.Sub(c).Unit().Mul(r)))
	}
	rim := min(w, d) * 0.04
	return []Shape{
		edge(rect(0, 0, w, d)),
		fine(rect(rim, rim, w-rim, d-rim)...),
		fine(cut(rim, rim)...), fine(cut(w-rim, rim)...), fine(cut(w-rim, d-rim)...), fine(cut(rim, d-rim)...),
		edge(circle(x, y, r)),
	}
}

// toeSpace mm deep is the space for toes below a cabinet, and what its top overlaps.
const toeSpace = 75

// cabinet is a base cabinet: its front, and its toe space behind it.
func cabinet(w, d float64) []Shape {
	toe := min(toeSpace, d/4)
	return []Shape{edge(rect(0, 0, w, d)), {Segs: line(0, d-toe, w, d-toe), Stroke: drawing.HiddenLine()}}
}

// appliance is a box with both diagonals: something that can be pulled out.
func appliance(w, d float64) []Shape {
	return []Shape{edge(rect(0, 0, w, d)), fine(line(0, 0, w, d)...), fine(line(w, 0, 0, d)...)}
}

// island is a counter that stands free, with its base set back below it.
func island(w, d float64) []Shape {
	in := min(toeSpace, w/6, d/6)
	return []Shape{edge(rect(0, 0, w, d)), {Segs: rect(in, in, w-in, d-in), Stroke: drawing.HiddenLine()}}
}

// column is cut like a wall.
func column(w, d float64) []Shape {
	return []Shape{{Segs: rect(0, 0, w, d), Stroke: drawing.WallLine(), Fill: drawing.Filled(drawing.Poche)}}
}

// hearth is a slab before a fire opening whose cheeks draw in.
func hearth(w, d float64) []Shape {
	x0, x1, y := w*0.2, w*0.8, d*0.4
	opening := drawing.Polyline(
		drawing.Pt{X: x0}, drawing.Pt{X: x0 + w*0.08, Y: y}, drawing.Pt{X: x1 - w*0.08, Y: y}, drawing.Pt{X: x1})
	return []Shape{edge(rect(0, 0, w, d)), fine(opening...), fine(line(0, d*0.7, w, d*0.7)...)}
}

// drain is a grate: a circle with a cross.
func drain(w, d float64) []Shape {
	x, y := w/2, d/2
	return []Shape{
		edge(oval(x, y, x, y)),
		fine(oval(x, y, x*0.7, y*0.7)...),
		fine(line(x*0.3, y, w-x*0.3, y)...), fine(line(x, y*0.3, x, d-y*0.3)...),
	}
}

// register is a frame with vanes across the short way.
func register(w, d float64) []Shape {
	shapes := []Shape{edge(rect(0, 0, w, d))}
	const vanes = 8
	for i := 1; i < vanes; i++ {
		t := float64(i) / vanes
		if w >= d {
			shapes = append(shapes, fine(line(w*t, d*0.15, w*t, d*0.85)...))
		} else {
			shapes = append(shapes, fine(line(w*0.15, d*t, w*0.85, d*t)...))
		}
	}
	return shapes
}

// Flange is the ring a toilet is bolted to: a circle with its centre marked,
// about the origin.
func Flange(radius float64) []Shape {
	r := radius * 1.25
	return []Shape{
		fine(circle(0, 0, radius)...), fine(circle(0, 0, radius*0.6)...),
		fine(line(-r, 0, r, 0)...), fine(line(0, -r, 0, r)...),
	}
}
