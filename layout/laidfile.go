package layout

// laidJSON is what the layout file says of a cable as it lies. path of the
// cable itself is where it lies only when whole is true and the job's status
// is "as laid".
type laidJSON struct {
	Evidence string       `json:"evidence"`
	Error    float64      `json:"error_mm"`
	Whole    bool         `json:"whole"`
	Path     [][2]float64 `json:"path"`
	Planned  [][2]float64 `json:"planned"`
	Joint    *[2]float64  `json:"lead_joint,omitempty"`
	EndCap   *[2]float64  `json:"end_cap,omitempty"`
	Differ   []differJSON `json:"differences"`
}

type differJSON struct {
	What string     `json:"what"`
	Plan [2]float64 `json:"plan"`
	Laid [2]float64 `json:"laid"`
	Off  float64    `json:"off_mm"`
}

func (l *Laid) json() *laidJSON {
	if l == nil {
		return nil
	}
	out := &laidJSON{Evidence: l.Job.Evidence.String(), Error: Round(l.Error, 1), Whole: l.Whole, Path: Pairs(l.Path),
		Planned: Pairs(l.Planned), Differ: []differJSON{}}
	if l.Joint != nil {
		p := pair(*l.Joint)
		out.Joint = &p
	}
	if l.EndCap != nil {
		p := pair(*l.EndCap)
		out.EndCap = &p
	}
	for _, d := range l.Differ {
		out.Differ = append(out.Differ, differJSON{d.What, pair(d.Plan), pair(d.Laid), Round(d.Off, 1)})
	}
	return out
}
