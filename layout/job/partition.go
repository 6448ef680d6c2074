package job

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"oxturn/layout/plane"
)

// A Partition is a wall that stands in the room, with its doorways. No cable lies under
// it; through a doorway it may go on.
type Partition struct {
	Name          string
	plane.Segment // its middle line, within the room
	Thickness     float64
	Openings      []Opening // From and To along the line; their Wall says nothing
	Span          Span
	Spans         Spans
}

// readPartitions reads walls within the room, and what the cable keeps off each.
func (r *Room) readPartitions(t table, c Clearance) (clears []float64) {
	names := namesSeen{}
	for i, pt := range limited(t, "partition") {
		p := Partition{Name: pt.text("name"), Thickness: pt.num("thickness"), Span: pt.span(), Spans: pt.spans()}
		names.check(pt, "name", p.Name, "partition")
		if p.Name == "" {
			p.Name = fmt.Sprintf("partition %d", i+1)
		}
		clear := pt.numOr("clear", c.Wall)
		doors := limited(pt, "opening")
		if pt.broken() || !r.usable() || !r.readPartitionLine(pt, &p) {
			continue
		}
		for _, ot := range doors {
			p.readOpening(ot)
		}
		r.Partitions, clears = append(r.Partitions, p), append(clears, clear)
	}
	return clears
}

// raisePartitions makes keep-outs, which areas, leads and sheets know, of what is solid of
// the partitions.
func (r *Room) raisePartitions(clears []float64) {
	for i := range r.Partitions {
		p := &r.Partitions[i]
		for _, ring := range r.solid(p) {
			r.KeepOuts = append(r.KeepOuts, KeepOut{Name: p.Name, Outline: ring, Clear: clears[i], Partition: true,
				Span: p.Span, Spans: p.Spans})
		}
	}
}

// readPartitionLine finds where a partition stands, cut to the room.
func (r *Room) readPartitionLine(t table, p *Partition) bool {
	what := thing("partition", p.Name)
	a, okA := r.spotOf(t, "from", what)
	b, okB := r.spotOf(t, "to", what)
	if !okA || !okB {
		return false
	}
	line := Joint{Name: p.Name, Segment: plane.Segment{A: a, B: b}}
	if !r.trim(t, &line, what) {
		return false
	}
	p.Segment = line.Segment
	return true
}

// readOpening reads a doorway of a partition: along it from where it begins.
func (p *Partition) readOpening(t table) {
	o := openingOf(t)
	o.Wall = -1
	if t.broken() {
		return
	}
	width := t.num("width")
	switch {
	case t.has("centre"):
		o.From = t.num("centre") - width/2
	case t.has("to_end"):
		o.From = p.Length() - t.num("to_end") - width
	default:
		o.From = t.num("from")
	}
	if o.To = o.From + width; o.From < -lengthRounding || o.To > p.Length()+lengthRounding {
		t.errorf(placeKeyOf(t), "it is measured along the partition, from where that begins",
			"%s of %s would lie from %s to %s; the partition is %s long", thing(o.Kind, o.Name), p.Name,
			t.length(o.From),
			t.length(o.To), t.length(p.Length()))
		return
	}
	for _, other := range p.Openings {
		if math.Min(o.To, other.To)-math.Max(o.From, other.From) > lengthRounding {
			t.errorf(placeKeyOf(t), "move one of them, or make it narrower", "%s overlaps %s in %s",
				thing(o.Kind, o.Name),
				thing(other.Kind, other.Name), p.Name)
			return
		}
	}
	p.Openings = append(p.Openings, o)
}

// placeKeyOf is the key that says where along a partition an opening is.
func placeKeyOf(t table) string {
	if keys := given(t, "from", "to_end", "centre"); len(keys) > 0 {
		return keys[0]
	}
	return "width"
}

// solid are the pieces of a partition between its doorways. Where it meets another one it
// goes on to that one's far face, so that no corner stays open.
func (r *Room) solid(p *Partition) (out []plane.Ring) {
	from, to := 0.0, p.Length()
	for i := range r.Partitions {
		other := &r.Partitions[i]
		if other == p {
			continue
		}
		if other.Distance(p.A) <= other.Thickness/2+lengthRounding {
			from = math.Min(from, -other.Thickness/2)
		}
		if other.Distance(p.B) <= other.Thickness/2+lengthRounding {
			to = math.Max(to, p.Length()+other.Thickness/2)
		}
	}
	openings := slices.Clone(p.Openings)
	slices.SortFunc(openings, func(a, b Opening) int { return cmp.Compare(a.From, b.From) })
	for _, o := range append(openings, Opening{From: to, To: to}) {
		if o.From-from > lengthRounding {
			out = append(out, p.piece(from, o.From))
		}
		from = o.To
	}
	return out
}

// piece is the floor under a stretch of a partition.
func (p *Partition) piece(from, to float64) plane.Ring {
	u := p.B.Sub(p.A).Unit()
	side := u.Left().Mul(p.Thickness / 2)
	a, b := p.A.Add(u.Mul(from)), p.A.Add(u.Mul(to))
	return plane.Ring{a.Sub(side), b.Sub(side), b.Add(side), a.Add(side)}
}
