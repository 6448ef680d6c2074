package ownersmap

import (
	"oxturn/layout/plane"
	"oxturn/layout/probe"
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

func tableOf(m *probe.Map) table {
	t := table{Room: m.Room, Inches: m.Units == plane.Inches, NoReason: m.NoReason, Outline: pairs(m.Outline),
		Stands: []stand{}, RiseSaid: m.RiseWords(), OfWalls: m.WallCautions()}
	for _, w := range m.Walls {
		t.Walls = append(t.Walls, wall{w.Letter, pair(w.A), pair(w.B), pair(w.In)})
	}
	for _, f := range m.Faces {
		t.Faces = append(t.Faces, face{f.Called, f.Part, pair(f.Line.A), pair(f.Line.B), pair(f.In),
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
		t.Stands = append(t.Stands, stand{x.Name, pairs(x.Outline)})
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
