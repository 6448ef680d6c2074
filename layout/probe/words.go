package probe

import (
	"fmt"
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
		"Switch the heating off at the " + m.region.Panel +
			" and make sure that it is off before any tool touches this floor.",
		"First look for a way without a hole: glue, a stop on the hinge or on the wall.",
		"No hole through a lead rise, a lead joint, an end cap, a cold lead or a sensor lead: each kills the floor " +
			"as a cable does.",
		"The record can be wrong. Find the cable again with a tracer or by its warmth at three points, and compare, " +
			"before you drill.",
	}
	if m.Depth > 0 {
		depthBy := map[job.Source]string{job.FromJob: "by the job file",
			job.FromDefault: "by default, not measured"}[m.DepthBy]
		out = append(out, fmt.Sprintf("The cable lies in mortar, from about %s below the face of the tile (%s). No "+
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
		return string(NoVerdict) + ": " + a.Reason
	case NothingRecorded:
		return fmt.Sprintf("%s WITHIN %s of this spot; see the limits below", NothingRecorded, m.floor(a.Within))
	case CableHere:
		here := -1
		for i, n := range a.Near {
			if n.Recorded && n.Distance-n.Half-n.Error <= 0 && (here < 0 || n.Kind == Cable) {
				here = i
			}
		}
		return fmt.Sprintf("%s: %s", CableHere, m.called(a.Near[here]))
	}
	return fmt.Sprintf("%s: %s", a.Verdict, m.called(a.Near[0]))
}

// called names a thing; in a record it says so of what was never found again.
func (m *Map) called(n Near) string {
	s := string(n.Kind) + " " + n.Name
	if n.Run > 0 {
		s += ", run " + n.Thing.RunNames[n.Run-1]
	}
	if !n.Recorded && n.Kind != LeadRise && m.NoReason == "" {
		s += " (as planned, never recorded)"
	}
	return s
}

// Spot says where a point lies: from the two datum walls, and on which tile.
func (m *Map) Spot(a Answer) string {
	if a.Wall != nil {
		return m.wallWords(*a.Wall)
	}
	s := m.Place(a.Spot)
	if a.Tile != nil {
		s += fmt.Sprintf("; tile row %d, column %d", a.Tile.Row, a.Tile.Column)
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
	what := "under the tile, or may be: "
	if m.NoReason != "" {
		what = "planned under the tile: "
	}
	for _, p := range under {
		out = append(out, Fact{"tile", what + m.Words(p)})
	}
	if a.Tile == nil {
		return out
	}
	if len(under) == 0 {
		out = append(out, Fact{"tile", "nothing is recorded under it"})
	}
	for _, s := range m.OnTile(*a.Tile) {
		out = append(out, Fact{"tile", s.words()})
	}
	return append(out, Fact{"", m.Counting()})
}

// Reckoning says how far a thing is and what is taken off for what it may be
// off; from a plan nothing can be reckoned.
func (m *Map) Reckoning(n Near) string {
	if n.Kind == LeadRise {
		return m.Brief(n)
	}
	s := fmt.Sprintf("%s: %s to its centre line", m.called(n), m.Length(n.Distance))
	if n.Running >= 0 {
		s += fmt.Sprintf(" at %s of its length", running(n.Running, m.Units))
	}
	if m.NoReason != "" {
		return s + ", by the plan"
	}
	s += fmt.Sprintf("; less %s half width, %s position error", m.Length(n.Half), m.Length(n.Error))
	if n.Finger > 0 {
		s += fmt.Sprintf(", %s finger-room", m.Length(n.Finger))
	}
	return s + ": " + m.left(n)
}

// Brief says how far a thing is and what is left of that.
func (m *Map) Brief(n Near) string {
	if n.Kind == LeadRise && n.Up == 0 || m.NoReason != "" {
		return fmt.Sprintf("%s: %s", m.called(n), m.Length(n.Distance))
	}
	return fmt.Sprintf("%s: %s, %s", m.called(n), m.Length(n.Distance), m.left(n))
}

func (m *Map) left(n Near) string {
	if n.Clear <= 0 {
		return "nothing left"
	}
	return m.floor(n.Clear) + " left"
}

// running writes a length of cable.
func running(mm float64, u plane.Units) string {
	mm = math.Round(mm*1e3) / 1e3 // the map in a browser must round to the same side
	if u == plane.Inches {
		return say.LongBoth(mm, u)
	}
	return say.Long(mm, u)
}

// Words says one stretch of what lies under a tile.
func (m *Map) Words(p Piece) string {
	s := m.called(Near{Thing: p.Thing, Run: p.Run})
	if p.Along != nil {
		s += fmt.Sprintf(", from %s to %s of its length", running(p.From, m.Units), running(p.To, m.Units))
	}
	return s
}

// Record says what the map is worth, in one line.
func (m *Map) Record() string {
	if m.NoReason != "" {
		return strings.ToUpper(m.Status.String()) + ", plan only: " + m.NoReason
	}
	s := fmt.Sprintf("%s, %s", strings.ToUpper(m.Status.String()), m.Evidence)
	for _, t := range m.Things {
		if t.Kind == Cable {
			s += fmt.Sprintf("; %s within %s either way", t.Name, m.Length(t.Error))
		}
	}
	return s
}

// Rests says which plan the map rests on, so that it can be held against the
// drawings at hand.
func (m *Map) Rests() string { return "rests on plan " + strings.Join(m.Codes, " and ") }

// Counting says how rows and columns of tiles are counted.
func (m *Map) Counting() string {
	if m.Tiling == nil {
		return ""
	}
	a := m.Tiling.Grid.Angle
	along := plane.Pt(1, 0).Rotate(a)
	return fmt.Sprintf("rows are counted going %s, tiles in a row going %s, both from 1, cut tiles and those under "+
		"fixtures too, as the room's first tile was set out", wind(along.Left()), wind(along))
}

// wind names the nearest of the eight winds.
func wind(d plane.Point) string {
	names := [...]string{"east", "north-east", "north", "north-west", "west", "south-west", "south", "south-east"}
	return names[(int(math.Round(math.Atan2(d.Y, d.X)/(math.Pi/4)))+8)%8]
}
