package probe

import (
	"math"
	"strings"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/load"
	"oxturn/layout/plane"
	"oxturn/layout/record"
	"oxturn/layout/say"
)

// Cautions returns what is to be said with every answer.
func (m *Map) Cautions() []string {
	out := []string{
		m.Textf("Switch the heating off at the %s and make sure that it is off before any tool touches this floor.",
			m.Text(m.region.Panel)),
		m.Text("First look for a way without a hole: glue, a stop on the hinge or on the wall."),
		m.Text("No hole through a lead rise, a lead joint, an end cap, a cold lead or a sensor lead: each kills the " +
			"floor as a cable does."),
		m.Text("The record can be wrong. Find the cable again with a tracer or by its warmth at three points, and " +
			"compare, before you drill."),
	}
	if m.Depth > 0 {
		depthBy := m.Text("by the job file")
		if m.DepthBy == job.FromDefault {
			depthBy = m.Text("by default, not measured")
		}
		out = append(out, m.Textf("The cable lies in mortar, from about %s below the face of the tile (%s). No "+
			"drilling depth is free of risk.", m.Length(m.Depth), depthBy))
	}
	return out
}

// Living says how to live with a warmed floor; what is kept of it is said of one that is
// laid, or is to be for sure.
func Living(in circuit.Region, status job.Status, l language.Language) []string {
	out := []string{
		l.Text("Keep thick rugs and legless furniture off."),
		l.Text("After a power cut check the thermostat's programme."),
	}
	if status == job.Proposal {
		return out
	}
	return append(out, l.Textf("Keep this map and the test records at the %s.", l.Text(in.Panel)))
}

// Untested says of which cables of a room recorded as laid a stage was never tested.
func Untested(r *layout.Room, l language.Language) (out []string) {
	for i := range r.Cables {
		c := &r.Cables[i]
		if stages := load.SkippedStages(c); c.Laid.Recorded() && len(stages) > 0 {
			out = append(out, l.Textf("%s was not tested at %s: see its test record.", c.ID,
				record.StageWords(stages, l)))
		}
	}
	return out
}

// floor writes a length rounded down, for what nothing is recorded within.
func (m *Map) floor(mm float64) string {
	if m.Units == plane.Inches {
		quarter := math.Floor(mm/plane.Inch*4) / 4 * plane.Inch
		return strings.TrimPrefix(say.Whole(quarter, m.Units), "0'-0 ") + " (" +
			say.Whole(math.Floor(quarter), plane.Millimetres) + ")"
	}
	return say.Whole(math.Floor(mm), m.Units)
}

// Headline is an answer in one line.
func (m *Map) Headline(a Answer) string {
	switch a.Verdict {
	case NoVerdict:
		return m.Textf("NO VERDICT: %s", a.Reason)
	case NothingRecorded:
		return m.Textf("NO CABLE RECORDED WITHIN %s of this spot; see the limits below", m.floor(a.Within))
	case CableHere:
		here := -1
		for i, n := range a.Near {
			if n.Recorded && n.Distance-n.Half-n.Error <= 0 && (here < 0 || n.Kind == Cable) {
				here = i
			}
		}
		return m.Textf("CABLE HERE: %s", m.called(a.Near[here]))
	}
	return m.Textf("TOO CLOSE: %s", m.called(a.Near[0]))
}

// Called names a thing.
func (m *Map) Called(t Thing) string { return m.Text(string(t.Kind)) + " " + t.Name }

// called names a thing and its run; in a record it says so of what was never found again.
func (m *Map) called(n Near) string {
	s := m.Called(n.Thing)
	if n.Run > 0 {
		s = m.Textf("%s, run %s", s, n.Thing.RunNames[n.Run-1])
	}
	if !n.Recorded && n.Kind != LeadRise && m.NoReason == "" {
		s = m.Textf("%s (as planned, never recorded)", s)
	}
	return s
}

// Spot says where a point lies: from the two datum walls, and on which tile.
func (m *Map) Spot(a Answer) string {
	if a.Wall != nil {
		return m.wallWords(*a.Wall)
	}
	s := m.PlaceIn(a.Spot, m.Language)
	if a.Tile != nil {
		s = m.Textf("%s; tile row %d, column %d", s, a.Tile.Row, a.Tile.Column)
	}
	return s
}

// Facts says everything of an answer but its headline: where it is, what lies
// near it, what stands there, and what is under its tile and on it. where is Spot's words or those of a tile.
func (m *Map) Facts(a Answer, where Fact, under []Piece) []Fact {
	out := []Fact{where, {"record", m.Record()}}
	for i, n := range a.Near {
		if i == 0 {
			out = append(out, Fact{"nearest", m.Reckoning(n)})
			continue
		}
		out = append(out, Fact{"", m.Brief(n)})
	}
	if a.Wall != nil {
		out = append(out, Fact{"wall", m.RiseWords()})
	}
	if a.Stand != nil && !a.Whole {
		out = append(out, Fact{"fixture", m.standWords(a.Stand)})
	}
	for _, p := range under {
		words := m.Textf("under the tile, or may be: %s", m.Words(p))
		if m.NoReason != "" {
			words = m.Textf("planned under the tile: %s", m.Words(p))
		}
		out = append(out, Fact{"tile", words})
	}
	if a.Tile == nil {
		return out
	}
	if len(under) == 0 {
		out = append(out, Fact{"tile", m.Text("nothing is recorded under it")})
	}
	for _, s := range m.OnTile(*a.Tile) {
		out = append(out, Fact{"tile", s.words(m.Language)})
	}
	return append(out, Fact{"", m.Counting()})
}

// Reckoning says how far a thing is and what is taken off for what it may be
// off; from a plan nothing can be reckoned.
func (m *Map) Reckoning(n Near) string {
	if n.Kind == LeadRise {
		return m.Brief(n)
	}
	s := m.Textf("%s: %s to its centre line", m.called(n), m.Length(n.Distance))
	if n.Running >= 0 {
		s = m.Textf("%s at %s of its length", s, m.running(n.Running))
	}
	if m.NoReason != "" {
		return m.Textf("%s, by the plan", s)
	}
	s = m.Textf("%s; less %s half width, %s position error", s, m.Length(n.Half), m.Length(n.Error))
	if n.Finger > 0 {
		s = m.Textf("%s, %s finger-room", s, m.Length(n.Finger))
	}
	return m.Textf("%s: %s", s, m.left(n))
}

// Brief says how far a thing is and what is left of that.
func (m *Map) Brief(n Near) string {
	if n.Kind == LeadRise && n.Up == 0 || m.NoReason != "" {
		return m.Textf("%s: %s", m.called(n), m.Length(n.Distance))
	}
	return m.Textf("%s: %s, %s", m.called(n), m.Length(n.Distance), m.left(n))
}

func (m *Map) left(n Near) string {
	if n.Clear <= 0 {
		return m.Text("nothing left")
	}
	return m.Textf("%s left", m.floor(n.Clear))
}

// running writes a length of cable.
func (m *Map) running(mm float64) string {
	mm = math.Round(mm*1e3) / 1e3 // the map in a browser must round to the same side
	if m.Units == plane.Inches {
		return m.Figure(say.LongBoth(mm, m.Units))
	}
	return m.Figure(say.Long(mm, m.Units))
}

// Words says one stretch of what lies under a tile.
func (m *Map) Words(p Piece) string {
	s := m.called(Near{Thing: p.Thing, Run: p.Run})
	if p.Along != nil {
		s = m.Textf("%s, from %s to %s of its length", s, m.running(p.From), m.running(p.To))
	}
	return s
}

// Record says what the map is worth, in one line.
func (m *Map) Record() string {
	if m.NoReason != "" {
		return m.Textf("%s, plan only: %s", m.status(), m.NoReason)
	}
	s := m.status() + ", " + m.Text(m.Evidence)
	for _, t := range m.Things {
		if t.Kind == Cable {
			s += m.Joint("; ") + m.Textf("%s within %s either way", t.Name, m.Length(t.Error))
		}
	}
	return s
}

// Rests says which plan the map rests on, so that it can be held against the
// drawings at hand.
func (m *Map) Rests() string {
	return m.Textf("rests on plan %s", strings.Join(m.Codes, m.Text(" and ")))
}

// status is the job's as its drawings have it.
func (m *Map) status() string { return strings.ToUpper(m.Text(m.Status.String())) }

// Counting says how rows and columns of tiles are counted.
func (m *Map) Counting() string {
	if m.Tiling == nil {
		return ""
	}
	a := m.Tiling.Grid.Angle
	along := plane.Pt(1, 0).Rotate(a)
	return m.Textf("rows are counted going %s, tiles in a row going %s, both from 1, cut tiles and those under "+
		"fixtures too, as the room's first tile was set out", m.wind(along.Left()), m.wind(along))
}

// wind names the nearest of the eight winds.
func (m *Map) wind(d plane.Point) string {
	names := [...]string{m.Text("east"), m.Text("north-east"), m.Text("north"), m.Text("north-west"), m.Text("west"),
		m.Text("south-west"), m.Text("south"), m.Text("south-east")}
	return names[(int(math.Round(math.Atan2(d.Y, d.X)/(math.Pi/4)))+8)%8]
}
