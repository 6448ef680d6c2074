package probe

import (
	"io"
	"math"
	"strings"

	"oxturn/layout/asjson"
	"oxturn/layout/plane"
	"oxturn/layout/tiling"
)

// answerJSON is an answer for other programs: lengths in mm.
type answerJSON struct {
	Schema   int           `json:"schema"`
	Room     string        `json:"room"`
	Status   string        `json:"status"`
	Evidence string        `json:"evidence"`
	Plans    []string      `json:"plan_codes"`
	Spot     *[2]float64   `json:"spot,omitempty"`
	Wall     *wallJSON     `json:"wall_spot,omitempty"`
	Tile     *tiling.Place `json:"tile,omitempty"`
	Verdict  Verdict       `json:"verdict"`
	Reason   string        `json:"reason,omitempty"`
	Within   *float64      `json:"nothing_recorded_within_mm,omitempty"`
	Near     []nearJSON    `json:"near"`
	Stand    *standJSON    `json:"fixture,omitempty"`
	Under    []pieceJSON   `json:"under_tile"`
	On       []onJSON      `json:"on_tile"`
	Cautions []string      `json:"cautions"`
}

type wallJSON struct {
	Wall  string  `json:"wall"`
	Along float64 `json:"from_mm"`
	Up    float64 `json:"up_mm"`
	Rise  string  `json:"lead_rise"`
}

type nearJSON struct {
	Thing
	Distance float64    `json:"distance_mm"`
	Clear    float64    `json:"clear_mm"`
	At       [2]float64 `json:"at"`
	Running  *float64   `json:"running_mm,omitempty"`
	Run      int        `json:"run,omitempty"`
}

type standJSON struct {
	Name     string  `json:"name"`
	Under    bool    `json:"spot_under_it"`
	Distance float64 `json:"edge_distance_mm"`
}

type onJSON struct {
	Name string `json:"name"`
	All  bool   `json:"all_of_it"`
}

type pieceJSON struct {
	Kind Kind    `json:"kind"`
	Name string  `json:"name"`
	Run  int     `json:"run,omitempty"`
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
}

// WriteJSON writes an answer, with what lies under its tile, as indented JSON.
// spot is false for an answer about a whole tile or a wall.
func (m *Map) WriteJSON(w io.Writer, a Answer, under []Piece, spot bool) error {
	out := answerJSON{Schema: 1, Room: m.Room, Status: m.Status.String(), Evidence: m.Evidence, Plans: m.Codes,
		Tile: a.Tile, Verdict: a.Verdict, Reason: a.Reason,
		Near: []nearJSON{}, Under: []pieceJSON{}, On: []onJSON{}, Cautions: m.CautionsOf(a)}
	if spot {
		out.Spot = &[2]float64{tenth(a.Spot.X), tenth(a.Spot.Y)}
	}
	if s := a.Wall; s != nil {
		out.Wall = &wallJSON{strings.TrimPrefix(m.Faces[s.Face].Called, "wall "),
			tenth(m.Faces[s.Face].Start + s.Along), tenth(s.Up), m.RiseWords()}
	}
	if a.Verdict == NothingRecorded {
		v := math.Floor(a.Within*10+plane.Hair) / 10
		out.Within = &v
	}
	for _, n := range a.Near {
		j := nearJSON{Thing: n.Thing, Distance: tenth(n.Distance), Clear: tenth(n.Clear), At: pair(n.At), Run: n.Run}
		if n.Running >= 0 {
			v := tenth(n.Running)
			j.Running = &v
		}
		out.Near = append(out.Near, j)
	}
	for _, p := range under {
		out.Under = append(out.Under, pieceJSON{p.Kind, p.Name, p.Run, tenth(p.From), tenth(p.To)})
	}
	if n := a.Stand; n != nil && spot {
		out.Stand = &standJSON{n.Name, n.Under, tenth(n.Distance)}
	}
	if a.Tile != nil {
		for _, s := range m.OnTile(*a.Tile) {
			out.On = append(out.On, onJSON{s.Name, s.All})
		}
	}
	return asjson.Write(w, out)
}

func tenth(v float64) float64 { return math.Round(v*10)/10 + 0 }

func pair(p plane.Point) [2]float64 { return [2]float64{tenth(p.X), tenth(p.Y)} }
