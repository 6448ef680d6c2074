package ownersmap

import (
	"cmp"

	"oxturn/layout"
	"oxturn/layout/plane"
	"oxturn/layout/probe"
	"oxturn/layout/record"
)

// A table is one room as the script reads it: the same figures, to the last
// bit, that probe decides with. Lengths in mm.
type table struct {
	Room     string       `json:"room"`
	Inches   bool         `json:"inches"`
	NoReason string       `json:"noReason"`
	Outline  [][2]float64 `json:"outline"`
	Walls    []wall       `json:"walls"`
	Faces    []face       `json:"faces"`
	Datums   [2]int       `json:"datums"`
	Things   []thing      `json:"things"`
	Rise     *thing       `json:"rise"` // the lead rise as a hole in a wall meets it
	Box      [2]float64   `json:"box"`  // foot of the thermostat
	RiseSaid string       `json:"riseSaid"`
	OfWalls  []string     `json:"ofWalls"` // what to be careful about in a wall
	Stands   []stand      `json:"stands"`
	Tiles    *tiles       `json:"tiles"`
	NoTiles  string       `json:"noTiles"`
	Rests    string       `json:"rests"`
	Cables   []cable      `json:"cables"`
	Cores    []insulation `json:"cores"`
}

// A cable is what is known of one whose fault is to be found. Its ohms and capacitance are those
// when whole; null: not known.
type cable struct {
	Name    string  `json:"name"`
	Length  float64 `json:"length"`
	Return  bool    `json:"return"` // a lead comes back from its end: it has one conductor
	Lead    float64 `json:"lead"`
	Feet    bool    `json:"feet"`
	Spacing float64 `json:"spacing"`
	Ohms    *known  `json:"ohms"`
	Farads  *known  `json:"farads"`
}

// known is a figure with what it rests on.
type known struct {
	measured
	From string `json:"from"`
}

// measured is a figure as package record has it.
type measured struct {
	Value float64 `json:"value"`
	Error float64 `json:"error"`
	Gain  float64 `json:"gain"`
}

// insulation is that of a cable's cores, with the velocity factor it gives.
type insulation struct {
	Name string `json:"name"`
	measured
}

// recordedShare is what a recorded reading may be off where nothing is said of its meter.
const recordedShare = 0.01

func cablesOf(p *layout.Plan, r *layout.Room) (out []cable) {
	for i := range r.Cables {
		c := &r.Cables[i]
		k := probe.KnownOf(c, p.Job.Units, recordedShare, p.Job.Language)
		x := cable{Name: c.ID, Length: k.Length, Return: k.Ends.Return(), Lead: k.Lead, Feet: k.Feet,
			Spacing: c.Spacing}
		if k.OhmsFrom != "" {
			x.Ohms = &known{measured(k.Ohms), k.OhmsFrom}
		}
		if k.FaradsFrom != "" {
			x.Farads = &known{measured(k.Farads), k.FaradsFrom}
		}
		out = append(out, x)
	}
	return out
}

func coresKnown() (out []insulation) {
	for _, name := range record.Insulations() {
		m, _ := record.VelocityOf(name)
		out = append(out, insulation{name, measured(m)})
	}
	return out
}

type stand struct {
	Name    string       `json:"name"`
	Outline [][2]float64 `json:"outline"`
}

type wall struct {
	Letter string     `json:"letter"`
	A      [2]float64 `json:"a"`
	B      [2]float64 `json:"b"`
	In     [2]float64 `json:"in"` // unit vector into the room
}

// A face is a wall, a side of a curved one or a face of a partition, as a hole meets it.
type face struct {
	Called string        `json:"called"`
	Part   string        `json:"part"`
	Short  string        `json:"short"` // its part without the word wall
	Named  string        `json:"named"` // likewise what it is called
	A      [2]float64    `json:"a"`
	B      [2]float64    `json:"b"`
	In     [2]float64    `json:"in"`
	Core   [2][2]float64 `json:"core"` // along it, where leads rise in it
	From   string        `json:"from"`
	Start  float64       `json:"start"`
	Next   [2]string     `json:"next"`
}

type thing struct {
	Kind     string       `json:"kind"`
	Name     string       `json:"name"`
	Line     [][2]float64 `json:"line"`
	Along    []float64    `json:"along"`
	RunEnds  []float64    `json:"runEnds"`
	RunNames []string     `json:"runNames"`
	Half     float64      `json:"half"`
	Error    float64      `json:"error"`
	Finger   float64      `json:"finger"`
	Recorded bool         `json:"recorded"`
	Up       float64      `json:"up"`
}

type tiles struct {
	Origin [2]float64 `json:"origin"`
	Cos    float64    `json:"cos"`
	Sin    float64    `json:"sin"`
	Length float64    `json:"length"`
	Width  float64    `json:"width"`
	Joint  float64    `json:"joint"`
	Shift  float64    `json:"shift"`
	First  int        `json:"first"`
	Rows   [][2]int   `json:"rows"`
}

func tableOf(p *layout.Plan, r *layout.Room, m *probe.Map) table {
	t := table{NoTiles: m.NoTiles, Rests: m.Rests(), Cables: cablesOf(p, r), Cores: coresKnown(), Room: m.Room,
		Inches: m.Units == plane.Inches, NoReason: m.NoReason, Outline: pairs(m.Outline),
		Stands: []stand{}, RiseSaid: m.RiseWords(), OfWalls: m.WallCautions()}
	for _, w := range m.Walls {
		t.Walls = append(t.Walls, wall{w.Letter, pair(w.A), pair(w.B), pair(w.In)})
	}
	for _, f := range m.Faces {
		short, named := cmp.Or(f.Letter, f.Part), cmp.Or(f.Letter, f.Called)
		t.Faces = append(t.Faces, face{f.Called, f.Part, short, named, pair(f.Line.A), pair(f.Line.B), pair(f.In),
			[2][2]float64{pair(f.Core.A), pair(f.Core.B)}, f.From, f.Start, f.Next})
	}
	t.Datums[0], t.Datums[1] = m.Datums()
	for _, x := range m.Things {
		t.Things = append(t.Things, thingOf(x))
	}
	if r := m.Rise(); r != nil {
		x := thingOf(*r)
		t.Rise, t.Box = &x, pair(m.Foot())
	}
	for _, x := range m.Stands {
		t.Stands = append(t.Stands, stand{m.Text(x.Name), pairs(x.Outline)})
	}
	if m.Tiling != nil {
		g := m.Tiling.Grid
		sin, cos := plane.Sincos(g.Angle)
		t.Tiles = &tiles{pair(g.Origin), cos, sin, g.Length, g.Width, g.Joint, g.Shift, m.Tiling.First, nil}
		for _, r := range m.Tiling.Rows {
			t.Tiles.Rows = append(t.Tiles.Rows, [2]int{r.First, r.Count})
		}
	}
	return t
}

func thingOf(x probe.Thing) thing {
	return thing{string(x.Kind), x.Name, pairs(x.Line), x.Along, x.RunEnds, x.RunNames, x.Half, x.Error, x.Finger,
		x.Recorded, x.Up}
}

func pair(p plane.Point) [2]float64 { return [2]float64{p.X, p.Y} }

func pairs(pts []plane.Point) [][2]float64 {
	out := make([][2]float64, len(pts))
	for i, p := range pts {
		out[i] = pair(p)
	}
	return out
}
