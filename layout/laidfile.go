package layout

import "time"

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
	Photos   []photoJSON  `json:"photos,omitempty"`
}

type photoJSON struct {
	File   string  `json:"file"`
	Sum    string  `json:"sha256"`
	Taken  string  `json:"taken,omitempty"`
	Points int     `json:"known_points"`
	Off    float64 `json:"residual_mm"` // root mean square
	Lens   float64 `json:"lens"`        // relative, at the corner of the picture
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
	for i := range l.Job.Photos {
		p := &l.Job.Photos[i]
		x := photoJSON{File: p.File, Sum: p.Picture.Sum, Points: len(p.Points), Off: Round(p.Fit.RMS(), 1),
			Lens: Round(p.Fit.Lens, 4)}
		if !p.Taken.IsZero() {
			x.Taken = p.Taken.Format(time.DateOnly)
		}
		out.Photos = append(out.Photos, x)
	}
	for _, d := range l.Differ {
		out.Differ = append(out.Differ, differJSON{d.What.String(), pair(d.Plan), pair(d.Laid), Round(d.Off, 1)})
	}
	return out
}
