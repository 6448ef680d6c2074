package layout

import (
	"io"
	"math"

	"oxturn/layout/asjson"
	"oxturn/layout/membrane"
	"oxturn/layout/plane"
)

// schemaVersion of the layout file. It grows by one when a key changes its
// meaning; new keys may come without.
const schemaVersion = 1

// The layout file for other programs: lengths in mm, x east, y north.
type fileJSON struct {
	Schema int        `json:"schema"`
	Unit   string     `json:"unit"`
	Status string     `json:"status"`
	Code   string     `json:"plan_code"` // of the plan, also where the paths are those as laid
	Rooms  []roomJSON `json:"rooms"`
}

type roomJSON struct {
	Name    string       `json:"name"`
	Outline [][2]float64 `json:"outline"`
	Areas   areasJSON    `json:"areas_m2"`
	Lattice *latticeJSON `json:"lattice,omitempty"`
	Cables  []cableJSON  `json:"cables"`
	Sensors []sensorJSON `json:"sensors"`
	Pieces  []pieceJSON  `json:"membrane,omitempty"`
}

type pieceJSON struct {
	Piece  int          `json:"piece"`
	Corner [][2]float64 `json:"strip"`
	Length float64      `json:"cut_length_mm"`
	Width  float64      `json:"cut_width_mm"`
}

type areasJSON struct {
	Floor  float64 `json:"floor"`
	Tiled  float64 `json:"tiled"`
	Heated float64 `json:"heated"`
}

type latticeJSON struct {
	Origin   [2]float64 `json:"origin"`
	AngleDeg float64    `json:"angle_deg"`
	PitchMM  float64    `json:"pitch_mm"`
	Across   float64    `json:"pitch_across_mm,omitempty"` // where it is another
	// the pegs stand amid every second of these fields, the pitch being half of that from peg to peg
	Staggered bool `json:"staggered,omitempty"`
	Strips    bool `json:"strips,omitempty"` // there are no pegs: clips of strips across the angle, and a step along it
}

type cableJSON struct {
	ID        string       `json:"id"`
	Catalogue string       `json:"catalogue"`
	Length    float64      `json:"length_mm"`
	Routed    float64      `json:"routed_mm"`
	Bend      float64      `json:"bend_radius_mm"`
	Spacing   float64      `json:"spacing_mm"`
	Zone      int          `json:"zone"`
	Path      [][2]float64 `json:"path"`
	ColdLead  [][2]float64 `json:"cold_lead"`
	Return    [][2]float64 `json:"return_lead,omitempty"`
	Halfway   [2]float64   `json:"halfway"`
	Runs      []RunJSON    `json:"runs"`
	Score     scoreJSON    `json:"score"`
	AsLaid    *laidJSON    `json:"as_laid,omitempty"`
}

// A RunJSON is one run in a layout file, and in what refit prints.
type RunJSON struct {
	Run        int     `json:"run"`
	Direction  string  `json:"direction"`
	Pegs       int     `json:"pegs"`
	GapPegs    int     `json:"gap_to_next_pegs"`
	RunningEnd float64 `json:"running_mm"`
}

type scoreJSON struct {
	Covered  float64 `json:"covered"`
	Bare     float64 `json:"bare"`
	Evenness float64 `json:"evenness"`
	Straight float64 `json:"straight"`
	Turns    int     `json:"turns"`
}

type sensorJSON struct {
	Name  string       `json:"name"`
	Spare bool         `json:"spare"`
	Tip   [2]float64   `json:"tip"`
	Lead  [][2]float64 `json:"lead"`
}

// WriteFile writes the layout file.
func (p *Plan) WriteFile(w io.Writer) error {
	f := fileJSON{Schema: schemaVersion, Unit: "mm", Status: p.Job.Info.Status.String(), Code: p.Code}
	for i := range p.Rooms {
		room := p.Rooms[i].json(p.Job.Membrane.Staggered)
		room.Pieces = pieces(p.MembraneOf(room.Name))
		f.Rooms = append(f.Rooms, room)
	}
	return asjson.Write(w, f)
}

func (r *Room) json(staggered bool) roomJSON {
	out := roomJSON{
		Name: r.Job.Name, Outline: Pairs(r.Job.Outline), Cables: []cableJSON{}, Sensors: []sensorJSON{},
		Areas: areasJSON{squareMetres(r.Floor), squareMetres(r.Tiled), squareMetres(r.Heated)},
	}
	for _, c := range r.Cables {
		out.Cables = append(out.Cables, c.json())
		out.Lattice = &latticeJSON{pair(c.Lattice.Origin), Round(plane.Degrees(c.Lattice.Angle), 9), c.Lattice.Pitch,
			c.Lattice.Across, staggered, c.Lattice.Loose}
	}
	for _, s := range r.Sensors {
		out.Sensors = append(out.Sensors, sensorJSON{s.Name, s.Spare, pair(s.Tip), Pairs(s.Lead)})
	}
	return out
}

func pieces(l *membrane.Laid) []pieceJSON {
	if l == nil {
		return nil
	}
	var out []pieceJSON
	for _, p := range l.Pieces {
		out = append(out, pieceJSON{p.Number, Pairs(p.Strip), Round(p.Length, 1), Round(p.Width, 1)})
	}
	return out
}

// RunsJSON are the cable's runs as files have them.
func (c *Cable) RunsJSON() (out []RunJSON) {
	for _, run := range c.Runs {
		out = append(out, RunJSON{run.Number, run.Direction, run.Pegs, run.GapToNext,
			Round(run.RunningEnd, 1)})
	}
	return out
}

func (c *Cable) json() cableJSON {
	out := cableJSON{
		ID: c.ID, Catalogue: c.Label.ID, Length: c.Label.Length, Routed: Round(c.Routed, 3), Bend: c.BendRadius,
		Spacing: Round(c.Spacing, pointDecimals), Zone: c.Zone + 1, Path: Pairs(c.Path), ColdLead: Pairs(c.ColdLead),
		Return:  Pairs(c.Return),
		Halfway: pair(c.Halfway().At), Score: scoreJSON{Round(c.Score.Covered, 4), Round(c.Score.Bare, 3),
			Round(c.Score.Evenness, 4), Round(c.Score.Straight, 4), c.Score.Turns},
	}
	out.AsLaid = c.Laid.json()
	out.Runs = c.RunsJSON()
	return out
}

// Round to n decimals keeps the file short and free of the last bits in which
// machines may differ.
func Round(v float64, n int) float64 {
	k := math.Pow10(n)
	return math.Round(v*k)/k + 0
}

// pointDecimals is how many the file has of a point in mm: enough that a plan
// read back is the same plan.
const pointDecimals = 6

func pair(p plane.Point) [2]float64 {
	return [2]float64{Round(p.X, pointDecimals), Round(p.Y, pointDecimals)}
}

// Pairs are points as files have them.
func Pairs(pts []plane.Point) [][2]float64 {
	out := make([][2]float64, len(pts))
	for i, p := range pts {
		out[i] = pair(p)
	}
	return out
}

// squareMetres is the area of a region as the file has it.
func squareMetres(r plane.Region) float64 { return Round(r.Area()/plane.SquareMetre, 4) }
