package sheets

import (
	"fmt"
	"slices"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// papersFor returns the papers a sheet may use, each way up that is allowed.
func papersFor(s job.Sheet, u plane.Units) ([]drawing.Paper, error) {
	name := s.Size
	if name == "" {
		name = sitePaper(u)
	}
	p, ok := drawing.PaperNamed(name)
	if !ok {
		return nil, fmt.Errorf("%q is not a sheet size; use A4, A3, A2, letter, tabloid or arch C", s.Size)
	}
	return waysOf(p, s), nil
}

// waysOf returns the ways up in which the job lets a paper lie.
func waysOf(p drawing.Paper, s job.Sheet) []drawing.Paper {
	switch s.Orientation {
	case "portrait":
		return []drawing.Paper{p.Portrait()}
	case "landscape":
		return []drawing.Paper{p.Landscape()}
	}
	return []drawing.Paper{p.Landscape(), p.Portrait()}
}

// sitePaper is the sheet usual on a site, where the job asks for none.
func sitePaper(u plane.Units) string {
	if u == plane.Inches {
		return "tabloid"
	}
	return "A3"
}

// widePaper is the next larger sheet.
func widePaper(u plane.Units) string {
	if u == plane.Inches {
		return "arch C"
	}
	return "A2"
}

// crowded is the distance between runs, mm on paper, below which they are hard
// to count.
const crowded = 2.5

// legible is the same below which they cannot be told apart.
const legible = 1.2

// narrow reports whether the runs of a room lie closer on paper than least.
func narrow(r *layout.Room, ratio, least float64) bool {
	for _, c := range r.Cables {
		if c.Spacing > 0 && c.Spacing/ratio < least {
			return true
		}
	}
	return false
}

// handOverPaper is the sheet that papers for the owner are kept on.
func handOverPaper(u plane.Units) string {
	if u == plane.Inches {
		return "letter"
	}
	return "A4"
}

// arrangeSmall arranges a room's sheet on one page, at a legible scale: of the
// paper that is handed over or, where that does not hold everything, of the one
// the set is drawn on. ok is false when neither does.
func arrangeSmall(n need, j *job.Job, r *layout.Room) (a arrangement, ok bool) {
	all, err := scalesFor(j)
	if err != nil {
		return a, false
	}
	n.scales = nil
	for _, s := range all {
		if !narrow(r, s.Ratio, legible) {
			n.scales = append(n.scales, s)
		}
	}
	if len(n.scales) == 0 {
		return a, false
	}
	n.levels = slices.DeleteFunc(slices.Clone(n.levels), func(l level) bool { return l.overflow })
	u, sheet := figuresOf(j).units, j.Sheet
	for _, size := range []string{handOverPaper(u), sheet.Size} {
		sheet.Size = size
		if n.papers, err = papersFor(sheet, u); err != nil {
			return a, false
		}
		if a, err = arrange(n); err == nil {
			return a, true
		}
	}
	return a, false
}

// largest is the largest scale that a floor is drawn at when the job asks for
// none: beyond it the sheet gains nothing.
const largest = 5

func scalesFor(j *job.Job) ([]drawing.Scale, error) {
	u := figuresOf(j).units
	if j.Sheet.Ratio != 0 {
		s, ok := drawing.ScaleOf(j.Sheet.Ratio, u)
		if !ok {
			return nil, fmt.Errorf("%s is not a standard scale", j.Sheet.Scale)
		}
		return []drawing.Scale{s}, nil
	}
	var out []drawing.Scale
	for _, s := range drawing.ScalesFor(u) {
		if s.Ratio >= largest {
			out = append(out, s)
		}
	}
	return out, nil
}

// arrangeFor arranges a sheet on the paper and at the scale that the job asks
// for; when it leaves them open, on the paper usual on a site, or on the next
// larger one where the view would be crowded, at the largest scale that fits.
func arrangeFor(n need, j *job.Job, crowded func(ratio float64) bool) (arrangement, error) {
	var err error
	if n.scales == nil {
		if n.scales, err = scalesFor(j); err != nil {
			return arrangement{}, err
		}
	}
	u, sheet := figuresOf(j).units, j.Sheet
	if n.papers, err = papersFor(sheet, u); err != nil {
		return arrangement{}, err
	}
	a, err := arrange(n)
	if sheet.Size != "" || err == nil && (crowded == nil || !crowded(a.scale.Ratio)) {
		return a, err
	}
	sheet.Size = widePaper(u)
	var wrong error
	if n.papers, wrong = papersFor(sheet, u); wrong != nil {
		return a, wrong
	}
	if wide, none := arrange(n); none == nil && (err != nil || wide.scale.Ratio < a.scale.Ratio) {
		return wide, nil
	}
	return a, err
}
