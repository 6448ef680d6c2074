package job

import (
	"fmt"

	"oxturn/layout/plane"
)

// A Zone says what becomes of a part of the floor that joints, partitions or what stands
// about part from the rest.
type Zone struct {
	Name   string
	At     plane.Point // any place in it
	Cables []string    // that lie there, by id; they are among the room's
	Cold   bool        // no cable on purpose

	Density float64      // W/m² asked for where its cable is chosen, 0: the choice is not for it alone
	Along   *float64     // direction of its runs; nil: as in the room
	Start   *plane.Point // the corner in which its heat is to start; nil: as in the room
	Span    Span
	Spans   Spans
}

// readZones reads the parts of a floor that are spoken of, and puts their cables behind
// the room's own. Strips lie one way in a room.
func (r *Room) readZones(t table, strips bool) {
	names := namesSeen{}
	for i, zt := range limited(t, "zone") {
		z := Zone{Name: zt.text("name"), Cables: zt.texts("cables"), Cold: zt.flag("cold"), Density: zt.num("density"),
			Span: zt.span(), Spans: zt.spans()}
		names.check(zt, "name", z.Name, "zone")
		if z.Name == "" {
			z.Name = fmt.Sprintf("zone %d", i+1)
		}
		if zt.broken() || !r.usable() {
			continue
		}
		what := thing("zone", z.Name)
		var ok bool
		if z.At, ok = r.spotOf(zt, "at", what); !ok {
			continue
		}
		if strips && zt.has("along") {
			zt.errorf("along", "leave along out, or give it to the room",
				"the runs of %s lie as the room's do, across its [strips]", what)
		}
		z.Along, z.Start = r.readAlong(zt, "along", "a run of "+what), r.readStart(zt)
		says := given(zt, "cables", "density", "along", "start")
		switch {
		case z.Cold && len(says) > 0:
			zt.errorf(says[0], "keep one of the two", "%s is to stay cold and has %s", what, says[0])
		case z.Density > 0 && len(z.Cables) > 0:
			zt.errorf("density", "keep one of the two", "%s has cables, and a density that one is to be chosen for",
				what)
		case !z.Cold && len(says) == 0:
			zt.errorf("at", `add cables = ["…"] with what lies there, density, along or start, or cold = true`,
				"nothing is said of %s", what)
		case !r.Outline.Contains(z.At) && r.Outline.Distance(z.At) > r.slack():
			zt.errorf("at", "it is measured from the same corner as the room's own corners",
				"%s lies %s outside the walls of room %q", what, t.length(r.Outline.Distance(z.At)), r.Name)
		default:
			r.Zones = append(r.Zones, z)
			r.Cables = append(r.Cables, z.Cables...)
		}
	}
}

// ZoneOf is the zone that the room's cable i is asked to lie in, nil where it is asked for
// none.
func (r *Room) ZoneOf(i int) *Zone {
	n := len(r.Cables)
	for k := len(r.Zones) - 1; k >= 0; k-- {
		if n -= len(r.Zones[k].Cables); i >= n && len(r.Zones[k].Cables) > 0 {
			return &r.Zones[k]
		}
	}
	return nil
}

// readCold reads floor that stays cold on purpose: tile runs over it, leads may cross it.
func (r *Room) readCold(t table) {
	for i, ct := range limited(t, "cold") {
		k := KeepOut{Name: ct.text("name"), Tiled: true, Cold: true, Span: ct.span(), Spans: ct.spans()}
		if k.Name == "" {
			k.Name = numbered("left cold", i+1)
		}
		if s, ok := r.place(ct, k.Name, size{}); ok {
			k.Outline = s.outline
			r.checkWithin(ct, k.Name, k.Outline)
			r.KeepOuts = append(r.KeepOuts, k)
		}
	}
}
