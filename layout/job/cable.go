package job

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"oxturn/layout/circuit"
	"oxturn/layout/say"
)

// readCables reads the [[cable]] tables of a file; none may have an id of
// those known already.
func readCables(top table, known []Cable) []Cable {
	seen := namesSeen{}
	for _, c := range known {
		seen[c.ID] = c.Span
	}
	var out []Cable
	for _, t := range top.each("cable") {
		seen.check(t, "id", t.text("id"), "cable")
		out = append(out, readCable(t))
	}
	if len(known)+len(out) > maxItems {
		top.errorf("cable", "split the catalogue", "there are %d cables; %d are taken at most", len(known)+len(out),
			maxItems)
		out = nil
	}
	return out
}

func readCable(t table) Cable {
	tolerance := value[[2]float64](t, "tolerance")
	c := Cable{
		ID: t.text("id"), Volts: t.num("volts"), Watts: t.num("watts"), Length: t.num("length"), Ohms: t.num("ohms"),
		OhmsLow: tolerance[0], OhmsHigh: tolerance[1], Lead: t.num("lead"),
		Diameter: t.num("diameter"), MinBend: t.num("min_bend"), Price: t.num("price"),
		Span: t.span(), Spans: t.spans(),
	}
	if i := slices.Index(circuit.EndWords(), t.text("ends")); i > 0 {
		c.Ends = circuit.Ends(i)
	}
	if t.has("tolerance") {
		c.Tolerance = sourceNamed(t.text("tolerance_from"))
	}
	c.checkPower(t)
	if t.readable("volts") && t.readable("watts") && (t.readable("tolerance") || !t.has("tolerance")) {
		c.checkOhms(t)
	}
	return c
}

// checkOhms compares the label's ohms with those of its volts and watts.
func (c *Cable) checkOhms(t table) {
	if c.OhmsLow > 0 || c.OhmsHigh < 0 {
		t.errorf("tolerance", "write what it may be under, then over, such as [-0.05, 0.10]",
			"the tolerance of cable %q runs from %s %% to %s %%", c.ID, say.Signed(100*c.OhmsLow), say.Signed(
				100*c.OhmsHigh))
		return
	}
	want := c.Volts * c.Volts / c.Watts
	if c.Ohms == 0 || c.tooFar(t) || c.Ohms >= want*(1+c.OhmsLow)-lengthRounding &&
		c.Ohms <= want*(1+c.OhmsHigh)+lengthRounding {
		return
	}
	t.rd.report.Warnf("W001", t.at("ohms"), "read volts, watts and ohms off the label again",
		"cable %q says %s ohms, but %s V and %s W make %s (%s to %s allowed)", c.ID,
		figure(c.Ohms), figure(c.Volts), figure(c.Watts), figure(want), figure(want*(1+c.OhmsLow)),
		figure(want*(1+c.OhmsHigh)))
}

// figure writes a number to four figures, whole ones in full.
func figure(v float64) string {
	if v == math.Trunc(v) && math.Abs(v) < 1e15 {
		return fmt.Sprintf("%.0f", v)
	}
	return fmt.Sprintf("%.4g", v)
}

// checkCables looks up what the rooms ask for, once all cables are known.
func (j *Job) checkCables(top table) {
	for i, t := range top.each("room") {
		if i >= len(j.Rooms) {
			return
		}
		j.checkRoomCables(t, &j.Rooms[i])
	}
	for _, c := range j.Cables {
		if c.MinBend > j.Membrane.BendRadius+lengthRounding && j.Membrane.BendRadius > 0 {
			top.rd.report.Add(Diagnostic{Span: j.Spans.At("membrane.bend_radius"),
				Hint:  "make bend_radius larger, or take another cable",
				Notes: []Note{{c.Spans.At("min_bend"), "the cable's least bend is set here"}},
				Message: fmt.Sprintf("bend radius %s is below the minimum of cable %q, %s",
					top.length(j.Membrane.BendRadius), c.ID, top.length(c.MinBend))})
		}
	}
}

func (j *Job) checkRoomCables(t table, r *Room) {
	if len(j.Cables) == 0 {
		if top := t.top(); !top.has("cable") && !top.has("catalogue") && !t.rd.meant["cable"] &&
			!t.rd.meant["catalogue"] {
			t.errorf("cables", `add a [[cable]] with id, volts, watts, length and lead as its label says, or `+
				`catalogue = "cables.toml"`, "room %q has no cable to choose from", r.Name)
		}
		return
	}
	var ids []string
	for _, c := range j.Cables {
		ids = append(ids, c.ID)
	}
	for i, id := range r.Cables {
		if j.Cable(id) != nil {
			continue
		}
		hint := "the ids are: " + strings.Join(ids[:min(len(ids), 8)], ", ")
		if near := nearest(id, ids); near != "" {
			hint = fmt.Sprintf("did you mean %q?", near)
		}
		t.rd.report.Errorf(t.atItem("cables", i), hint,
			"room %q asks for cable %q, which is not in the job or its catalogue", r.Name, id)
	}
}

// Cable returns the cable with an id, nil where there is none.
func (j *Job) Cable(id string) *Cable {
	for i := range j.Cables {
		if j.Cables[i].ID == id {
			return &j.Cables[i]
		}
	}
	return nil
}
