package probe

import (
	"io"

	"oxturn/layout/asjson"
	"oxturn/layout/tiling"
)

// faultJSON is a fault for other programs: lengths in mm.
type faultJSON struct {
	Schema      int             `json:"schema"`
	Room        string          `json:"room"`
	Cable       string          `json:"cable"`
	Status      string          `json:"status"`
	Evidence    string          `json:"evidence"`
	Plans       []string        `json:"plan_codes"`
	Method      string          `json:"method"`
	Formula     string          `json:"formula"`
	From        float64         `json:"from_mm"`
	Best        float64         `json:"likeliest_mm"`
	To          float64         `json:"to_mm"`
	FaultOhms   *float64        `json:"fault_ohms,omitempty"`
	Line        [][2]float64    `json:"line"`
	At          [2]float64      `json:"likeliest"`
	Runs        [2]int          `json:"runs"`
	Tiles       []tiling.Place  `json:"tiles"`
	Neighbours  []neighbourJSON `json:"neighbours"`
	Assumptions []string        `json:"assumptions"`
	Cautions    []string        `json:"cautions"`
}

type neighbourJSON struct {
	Run  int     `json:"run"`
	From float64 `json:"from_mm"`
	To   float64 `json:"to_mm"`
	Gap  float64 `json:"gap_mm"`
}

// WriteJSON writes the fault as indented JSON.
func (f *Fault) WriteJSON(w io.Writer) error {
	s := f.Stretch
	out := faultJSON{Schema: 1, Room: f.Room.Job.Name, Cable: f.Cable.ID, Status: f.Map.Status.String(),
		Evidence: f.Map.Evidence, Plans: f.Map.Codes, Method: s.Method, Formula: s.Formula,
		From: tenth(s.From), Best: tenth(s.Best), To: tenth(s.To), At: pair(f.Best), Runs: f.Runs,
		Tiles: append([]tiling.Place{}, f.Tiles...), Neighbours: []neighbourJSON{}, Assumptions: append([]string{},
			s.Assumptions...), Cautions: f.Cautions()}
	if s.FaultOhms.Value > 0 || s.FaultOhms.Error > 0 {
		out.FaultOhms = &s.FaultOhms.Value
	}
	for _, p := range f.Line {
		out.Line = append(out.Line, pair(p))
	}
	for _, n := range f.Neighbours {
		out.Neighbours = append(out.Neighbours, neighbourJSON{n.Run, tenth(n.From), tenth(n.To), tenth(n.Gap)})
	}
	return asjson.Write(w, out)
}
