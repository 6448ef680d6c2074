// Package probe answers what lies at a spot on the floor: how far the nearest
// cable, joint, lead and sensor are, and what may be said about a hole there.
//
// Of a spot the package says that something is there, that it is too close, or
// that nothing is recorded within a distance. It never says more: what is
// recorded is how the cable was found, with an error, and a plan records
// nothing at all.
package probe

import (
	"slices"
	"strconv"

	"oxturn/layout"
	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// Kind is what may lie under a floor.
type Kind string

// The kinds of thing that a hole would destroy.
const (
	Cable      Kind = "heating cable"
	LeadJoint  Kind = "lead joint"
	EndCap     Kind = "end cap"
	ColdLead   Kind = "cold lead"
	SensorTip  Kind = "sensor"
	SensorLead Kind = "sensor lead"
	LeadRise   Kind = "lead rise"
)

// Half widths in mm of what lies under a floor where no label gives them: a
// cable of 7 mm, a joint or cap of 14 mm, a sensor's tube of 12 mm (common
// practice, the wide side).
const (
	cableHalf = 3.5
	jointHalf = 7
	tubeHalf  = 6
)

// jointReach is how far a lead joint reaches along the cable to either side of
// its middle, mm (common practice, the long side).
const jointReach = 75

// A Thing is a line on the floor along which something lies.
type Thing struct {
	Kind     Kind          `json:"kind"`
	Name     string        `json:"name"`
	Line     []plane.Point `json:"-"`
	Along    []float64     `json:"-"` // running length of cable at each point; nil: not counted
	RunEnds  []float64     `json:"-"` // running length at the end of each run
	RunNames []string      `json:"-"` // what the drawings call each run
	Mark     plane.Point   `json:"-"` // the place a joint, cap or sensor is known by
	Cable    string        `json:"-"` // whose joint or cap it is
	Tag      string        `json:"-"` // of a joint or cap: START or END, as on the drawings
	Up       float64       `json:"-"` // how far up a wall it reaches, mm; 0: it lies in the floor
	Half     float64       `json:"half_mm"`
	Error    float64       `json:"error_mm"`
	Finger   float64       `json:"finger_room_mm"`
	Recorded bool          `json:"recorded"` // it was found on the floor, and not only planned
}

// A Map is one room, ready to be asked.
type Map struct {
	layout.Tape
	language.Language // of what is said; names of kinds and evidence stay English in it
	Room              string
	Codes             []string // of the plans that what is known of its cables rests on
	Status            job.Status
	Evidence          string // weakest of the cables'
	NoReason          string // why no verdict is given; empty when one is
	Outline           plane.Ring
	Things            []Thing
	Stands            []job.Stand
	Tiling            *tiling.Numbered // nil: not on a grid, or nobody recorded where it was set out from
	NoTiles           string           // why nothing is said by tile; empty where it is
	Depth             float64          // mm from the face of the tile to the cable, about
	DepthBy           job.Source       // what that rests on
	Differ            []Difference
	Planned           [][]plane.Point // the plan's paths of cables that do not lie as planned

	Faces []Face // of what may be drilled into from the side: the walls in their order, then those of partitions

	room   *job.Room
	region circuit.Region
}

// A Difference is one thing of a cable that does not lie where the plan had it.
type Difference struct {
	Cable string
	layout.Difference
}

// Of makes the map of one room of a plan, in English.
func Of(p *layout.Plan, r *layout.Room) *Map { return In(p, r, language.English) }

// In makes the map of one room of a plan in a language.
func In(p *layout.Plan, r *layout.Room, l language.Language) *Map {
	m := &Map{Tape: layout.NewTape(r.Job, p.Units()), Language: l, Room: r.Job.Name, Status: p.Job.Info.Status,
		Outline: r.Job.Outline, Stands: r.Job.Stands(), room: r.Job, region: p.Job.Region()}
	m.Depth, m.DepthBy = p.Cover()
	if t, ok := tiling.Number(r.Tiled, p.Job.Tile, r.Job.FirstTile); ok {
		m.Tiling = &t
	}
	m.NoTiles = m.noTiles(r, p.Job.Tile)
	m.evidence(r)
	for i := range r.Cables {
		m.addCable(&r.Cables[i])
		if code := p.CodeOf(&r.Cables[i]); !slices.Contains(m.Codes, code) {
			m.Codes = append(m.Codes, code)
		}
	}
	m.addSensors(r)
	m.Faces = m.facesOf(r.Job)
	m.addRise(r)
	m.addDifferences(r)
	return m
}

// noTiles says why nothing can be said by tile.
func (m *Map) noTiles(r *layout.Room, t job.Tile) string {
	switch {
	case m.Tiling != nil:
		return ""
	case tiling.InRows(t) && r.Job.FirstTile.Length() == 0:
		return m.Textf("nobody recorded where the tile of room %s was set out from, so nothing can be said by "+
			"tile: measure from two walls", strconv.Quote(r.Job.Name))
	}
	return m.Textf("the tile of room %s is not laid in rows that can be counted; measure from two walls instead",
		strconv.Quote(r.Job.Name))
}

func (m *Map) addDifferences(r *layout.Room) {
	for _, c := range r.Cables {
		if m.NoReason != "" || len(c.Laid.Differ) == 0 {
			continue
		}
		m.Planned = append(m.Planned, c.Laid.Planned)
		for _, d := range c.Laid.Differ {
			m.Differ = append(m.Differ, Difference{c.ID, d})
		}
	}
}

// Moved says one difference: what, how far off its plan, and where it lies.
func (m *Map) Moved(d Difference) string {
	return m.Textf("%s, %s: %s off its plan, at %s", d.Cable, d.What, m.Length(d.Off), m.Spot(Answer{Spot: d.Laid}))
}

// evidence settles whether a verdict may be given from this room's record.
func (m *Map) evidence(r *layout.Room) {
	weakest := job.PhotoWithTape
	for i := range r.Cables {
		c := &r.Cables[i]
		switch {
		case m.Status != job.AsLaid:
			weakest = job.PlanOnly
			m.NoReason = m.Textf("this is a plan (status %s), and a plan does not show where the cable was laid",
				strconv.Quote(m.Text(m.Status.String())))
		case !c.Laid.Recorded():
			weakest = job.PlanOnly
			m.NoReason = m.Textf("nothing says how cable %s was found to lie", c.ID)
		default:
			weakest = min(weakest, c.Laid.Job.Evidence)
		}
	}
	if len(r.Cables) == 0 {
		weakest, m.NoReason = job.PlanOnly, m.Text("no cable of this room is known")
	}
	m.Evidence = weakest.String()
}

// accuracy fills in how far a thing may be off.
func (m *Map) accuracy(t Thing, l *layout.Laid, recorded bool) Thing {
	t.Recorded = recorded && m.NoReason == ""
	t.Error, t.Finger = layout.UnrecordedError, 0
	if m.NoReason == "" { // every cable has a record then
		t.Finger = l.FingerRoom
		if recorded {
			t.Error = l.Error
		}
	}
	return t
}

func (m *Map) addCable(c *layout.Cable) {
	half := cableHalf
	if c.Label.Diameter > 0 {
		half = c.Label.Diameter / 2
	}
	l := c.Laid
	line, along := rounded(c.Path, c.BendRadius)
	if n := along[len(along)-1]; n > 0 && c.Label.Length > 0 {
		for i := range along {
			along[i] *= c.Label.Length / n
		}
	}
	cable := Thing{Kind: Cable, Name: c.ID, Line: line, Along: along, Half: half}
	for _, run := range c.Runs {
		cable.RunEnds = append(cable.RunEnds, run.RunningEnd*c.Label.Length/c.Routed)
		cable.RunNames = append(cable.RunNames, c.RunName(run.Number))
	}
	m.Things = append(m.Things, m.accuracy(cable, l, true))
	m.addEnds(c, line, half)
}

// addEnds adds a cable's joints and its cap, and the leads.
func (m *Map) addEnds(c *layout.Cable, line []plane.Point, half float64) {
	var leads []Thing
	l := c.Laid
	for i, end := range c.Ends() {
		t := Thing{Name: c.ID, Tag: end.Tag, Mark: end.At}
		if m.NoReason == "" {
			t.Mark = *[]*plane.Point{l.Joint, l.EndCap}[i]
		}
		if len(c.Joined()) > 1 { // two joints and two leads, to be told apart
			t.Name += " " + end.Tag
		}
		if end.Capped() {
			t.Kind, t.Cable, t.Line, t.Half = EndCap, c.ID, []plane.Point{t.Mark}, max(jointHalf, half)
			m.Things = append(m.Things, m.accuracy(t, l, true))
			continue
		}
		lead, cable := end.Lead, line
		if i > 0 {
			lead, cable = backward(lead), backward(cable)
		}
		m.addJoint(c, t, lead, cable)
		leads = append(leads, Thing{Kind: ColdLead, Name: t.Name, Line: end.Lead, Half: half})
	}
	for i, t := range leads {
		if len(t.Line) > 1 {
			given := l != nil && len([][]plane.Point{l.Job.ColdLead, l.Job.Return}[i]) > 0
			m.Things = append(m.Things, m.accuracy(t, l, given || l != nil && l.Job.AsPlanned))
		}
	}
}

// addJoint adds a joint with the ends of lead and cable that belong to it.
func (m *Map) addJoint(c *layout.Cable, t Thing, lead, cable []plane.Point) {
	t.Kind, t.Cable, t.Half = LeadJoint, c.ID, jointHalf
	t.Line = append(backward(head(backward(lead), jointReach)), t.Mark)
	t.Line = append(t.Line, head(cable, jointReach)...)
	m.Things = append(m.Things, m.accuracy(t, c.Laid, true))
}

func (m *Map) addSensors(r *layout.Room) {
	var l *layout.Laid
	for i := range r.Cables {
		if r.Cables[i].Laid.Recorded() && (l == nil || r.Cables[i].Laid.Error > l.Error) {
			l = r.Cables[i].Laid
		}
	}
	for _, s := range r.Sensors {
		m.Things = append(m.Things, m.accuracy(Thing{Kind: SensorTip, Name: s.Name, Line: []plane.Point{s.Tip},
			Mark: s.Tip, Half: tubeHalf}, l, s.Found != nil))
		if len(s.Lead) > 1 {
			m.Things = append(m.Things, m.accuracy(Thing{Kind: SensorLead, Name: s.Name, Line: s.Lead, Half: tubeHalf},
				l, s.Found != nil && s.FoundLead))
		}
	}
}

// addRise adds the strip in front of the wall where the leads rise. It belongs
// to the leads whatever was recorded.
func (m *Map) addRise(r *layout.Room) {
	w, hangs := r.Job.BoxWall()
	if !hangs {
		return
	}
	t, along := r.Job.Thermostat, w.In.Left().Mul(layout.RiseHalf(m.Units))
	m.Things = append(m.Things, Thing{Kind: LeadRise, Name: w.Name(m.Language), Line: []plane.Point{t.At.Sub(along),
		t.At.Add(along)}, Half: layout.RiseDepth(m.Units)})
}
