package draft

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// drawingUnits are what $INSUNITS of a drawing says: 1 inches, 2 feet, 4 millimetres,
// 5 centimetres, 6 metres (DXF reference, header variables).
var drawingUnits = map[int]string{1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}

// readDrawing finds rooms among the closed outlines of a drawing, and in them what the
// cable keeps off.
func readDrawing(data []byte, o Options) (*Found, *Error) {
	d, err := readDXF(data)
	if err != nil {
		return nil, err
	}
	unit := drawingUnits[d.insunits]
	if o.Unit != "" {
		unit = o.Unit
	}
	if unit == "" {
		return nil, at(0, "the drawing does not say what its numbers are in").
			hint("add --file-units mm, cm, m, in or ft; it is %s across", d.across())
	}
	d.close()
	d.scale(unitMM[unit])
	layer, err := d.roomLayer(o.Layer)
	if err != nil {
		return nil, err
	}
	return d.rooms(layer, unit)
}

// across is how large a drawing is in its own numbers.
func (d *dxf) across() string {
	var all []plane.Point
	for _, s := range d.shapes {
		all = append(all, s.line...)
	}
	box := plane.Bounds(all)
	return fmt.Sprintf("%.5g by %.5g", box.W(), box.H())
}

func (d *dxf) scale(by float64) {
	for i := range d.shapes {
		s := &d.shapes[i]
		for k, p := range s.line {
			s.line[k] = p.Mul(by)
		}
		for k := range s.knots {
			s.knots[k].at, s.knots[k].rise = s.knots[k].at.Mul(by), s.knots[k].rise*by
		}
		s.radius *= by
		if s.closed && s.radius == 0 {
			s.line, s.dropped = cleaned(s.line)
		}
	}
}

// close joins lines and open outlines of one layer, end to end, to closed ones. Ends meet
// within a 2000th of the drawing's size, or are the same.
func (d *dxf) close() {
	var done []shape
	loose := map[string][]shape{}
	for _, s := range d.shapes {
		n := len(s.line)
		switch {
		case s.closed || n < 2:
			done = append(done, s)
		case n > 3 && s.line[0].Dist(s.line[n-1]) < d.near():
			s.shut()
			done = append(done, s)
		default:
			loose[s.layer] = append(loose[s.layer], s)
		}
	}
	for _, layer := range sortedKeys(loose) {
		done = append(done, joined(loose[layer], d.near())...)
	}
	d.shapes = done
}

// shut closes a line whose ends meet.
func (s *shape) shut() {
	s.closed, s.line, s.knots = true, s.line[:len(s.line)-1], s.knots[:len(s.knots)-1]
}

// nearShare is the part of a drawing's size within which ends of lines meet.
const nearShare = 2000

// near is within how much two ends of lines meet.
func (d *dxf) near() float64 {
	var all []plane.Point
	for _, s := range d.shapes {
		all = append(all, s.line...)
	}
	box := plane.Bounds(all)
	return math.Max(box.W(), box.H()) / nearShare
}

// joined takes stretches end to end as long as one goes on where the last one ends.
func joined(parts []shape, near float64) (out []shape) {
	used := make([]bool, len(parts))
	for i := range parts {
		if used[i] {
			continue
		}
		used[i] = true
		chain := parts[i]
		chain.line, chain.knots = slices.Clone(chain.line), slices.Clone(chain.knots)
		for next := 0; next >= 0; {
			next = goesOn(parts, used, &chain, near)
		}
		if n := len(chain.line); n > 3 && chain.line[0].Dist(chain.line[n-1]) < near {
			chain.shut()
		}
		out = append(out, chain)
	}
	return out
}

// goesOn adds the first unused stretch that begins or ends where a chain ends; -1: none.
func goesOn(parts []shape, used []bool, chain *shape, near float64) int {
	end := chain.line[len(chain.line)-1]
	for i, p := range parts {
		if used[i] {
			continue
		}
		line, knots := slices.Clone(p.line), p.knots
		if line[0].Dist(end) >= near {
			slices.Reverse(line)
			knots = reversed(knots)
		}
		if line[0].Dist(end) < near {
			used[i] = true
			chain.line = append(chain.line, line[1:]...)
			chain.knots[len(chain.knots)-1].rise = knots[0].rise
			chain.knots = append(chain.knots, knots[1:]...)
			return i
		}
	}
	return -1
}

// rooms makes rooms of the outlines on a layer, and keep-outs of what lies in them.
func (d *dxf) rooms(layer, unit string) (*Found, *Error) {
	f := &Found{}
	var outlines []shape
	for _, s := range d.shapes {
		if s.closed && s.radius == 0 && s.layer == layer {
			outlines = append(outlines, s)
		}
	}
	slices.SortStableFunc(outlines, func(a, b shape) int { return cmp.Compare(b.line.Area(), a.line.Area()) })
	floors := d.floors(f, outlines)
	for i, s := range floors {
		if err := check(s.line, s.at); err != nil {
			return nil, err
		}
		if i == mostRooms {
			return nil, at(s.at, "there are %d rooms on layer %s; %d are taken at most", len(floors), layer, mostRooms)
		}
		f.Rooms = append(f.Rooms, d.room(f, s, layer))
	}
	f.took("%s on layer %s, its numbers read as %s", say.Counted(len(f.Rooms), "closed outline"), layer, unit)
	d.sayLeft(f)
	return f, nil
}

// floors are the outlines that are rooms: not those within another, which are keep-outs,
// and not those round most of what another has, which are outer faces of walls.
func (d *dxf) floors(f *Found, outlines []shape) (out []shape) {
	for i, s := range outlines {
		holds := slices.ContainsFunc(outlines[i+1:], func(t shape) bool {
			return inside(t.line, s.line) && t.line.Area() > s.line.Area()/2
		})
		switch {
		case s.line.Area() < leastRoom:
		case holds:
			d.use(s)
			f.dropped("an outline of %s on layer %s that runs round another: the outer face of its walls",
				say.Area(s.line.Area(), plane.Millimetres), s.layer)
		case slices.ContainsFunc(out, func(t shape) bool { return inside(s.line, t.line) }):
		default:
			out = append(out, s)
		}
	}
	return out
}

// use marks a shape as spoken for.
func (d *dxf) use(s shape) {
	for i := range d.shapes {
		if d.shapes[i].at == s.at {
			d.shapes[i].used = true
		}
	}
}

// inside reports whether an outline lies within another, or along its sides.
func inside(a, b plane.Ring) bool {
	return len(a) > 0 && !slices.ContainsFunc(a, func(p plane.Point) bool {
		return !b.Contains(p) && b.Distance(p) > sameCorner
	})
}

// room is a floor with what lies in it, from its own corner.
func (d *dxf) room(f *Found, s shape, layer string) Room {
	own := standing(s.line, 0)
	r := Room{Outline: own.ring(s.line)}
	if ring, arcs, ok := bentRoom(&s, own); ok {
		r.Outline, r.Arcs = ring, arcs
		f.took("%s, by %s", say.Counted(len(arcs), "curved wall"),
			map[bool]string{true: "its rise", false: "their rises"}[len(arcs) == 1])
	}
	if s.dropped > 0 {
		f.dropped("%s that were none, within %g mm of a straight wall or of another", say.Counted(s.dropped, "corner"),
			inLine)
	}
	curves := 0
	for i := range d.shapes {
		t := &d.shapes[i]
		switch {
		case t.used || t.at == s.at || !t.closed || !s.line.Contains(t.middle()):
		case t.radius > 0:
			t.used = true
			r.KeepOuts = append(r.KeepOuts, KeepOut{Name: keepName(t.layer, layer), At: own.point(t.line[0]),
				Diameter: 2 * t.radius})
		case inside(t.line, s.line) && t.line.Area() < s.line.Area() && t.line.Area() > 100:
			t.used = true
			k := bentKeepOut(t, own)
			k.Name = keepName(t.layer, layer)
			r.KeepOuts = append(r.KeepOuts, k)
			if len(k.Rises) > 0 {
				curves++
			}
		}
	}
	d.use(s)
	if len(r.KeepOuts) > 0 {
		f.took("%s in the room of %s%s", say.Counted(len(r.KeepOuts), "keep-out"),
			say.Area(s.line.Area(), plane.Millimetres),
			map[bool]string{true: fmt.Sprintf(", %d of them with curved sides, by their rises",
				curves)}[curves > 0])
	}
	return r
}

func (s *shape) middle() plane.Point { return s.line.Bounds().Centre() }

// keepName names a keep-out after its layer, where that is not the walls' own.
func keepName(layer, walls string) string {
	if layer == walls {
		return "keep-out"
	}
	return strings.ToLower(layer)
}

// sayLeft says what of the drawing was not taken, by layer.
func (d *dxf) sayLeft(f *Found) {
	left := map[string]int{}
	for _, s := range d.shapes {
		if !s.used {
			left[s.layer]++
		}
	}
	for _, layer := range sortedKeys(left) {
		f.dropped("%s on layer %s: not closed, or in no room", say.Counted(left[layer], "shape"), layer)
	}
	for _, kind := range sortedKeys(d.unread) {
		f.dropped("%s of kind %s, which says nothing of where walls are", say.Counted(d.unread[kind], "thing"), kind)
	}
}

func sortedKeys[V any](m map[string]V) (out []string) {
	for k := range m {
		out = append(out, k)
	}
	slices.Sort(out)
	return out
}

// roomLayer settles which layer's outlines are rooms: the one asked for, or the only one
// with an outline of a room's size that does not lie in another layer's.
func (d *dxf) roomLayer(asked string) (string, *Error) {
	rooms := map[string][]shape{}
	for _, s := range d.shapes {
		if s.closed && s.radius == 0 && s.line.Area() >= leastRoom {
			rooms[s.layer] = append(rooms[s.layer], s)
		}
	}
	var list, names []string
	for _, n := range sortedKeys(rooms) {
		if strings.EqualFold(n, asked) {
			return n, nil
		}
		list = append(list, fmt.Sprintf("%s (%s, the largest %s)", n, say.Counted(len(rooms[n]), "outline"),
			sizeOf(rooms[n])))
		if !lieIn(n, rooms) {
			names = append(names, n)
		}
	}
	switch {
	case len(list) == 0:
		return "", at(0, "no closed outline of a room's size is in the drawing").
			hint("draw the room's finished walls as one closed polyline, and look at the unit: --file-units")
	case asked != "":
		return "", at(0, "no closed outline of a room's size is on layer %s", asked).hint("there are: %s",
			strings.Join(list, ", "))
	case len(names) == 1:
		return names[0], nil
	}
	e := at(0, "rooms may be on %d layers: %s", len(list), strings.Join(list, ", ")).
		hint("say which: --layer %s", quoted(sortedKeys(rooms)[0]))
	e.Layers = sortedKeys(rooms)
	return "", e
}

// lieIn reports whether all outlines of a layer lie in those of another one.
func lieIn(layer string, rooms map[string][]shape) bool {
	for other, outer := range rooms {
		if other != layer && !slices.ContainsFunc(rooms[layer], func(s shape) bool {
			return !slices.ContainsFunc(outer, func(o shape) bool { return inside(s.line, o.line) })
		}) {
			return true
		}
	}
	return false
}

// sizeOf is the size of the largest outline, in words.
func sizeOf(outlines []shape) string {
	largest := slices.MaxFunc(outlines, func(a, b shape) int { return cmp.Compare(a.line.Area(), b.line.Area()) })
	box := largest.line.Bounds()
	return say.RoomSize(box.W(), box.H())
}

func quoted(s string) string {
	if strings.ContainsAny(s, " '\"") {
		return fmt.Sprintf("%q", s)
	}
	return s
}
