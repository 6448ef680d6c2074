package setting

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/drawing"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// PapersFor returns the papers a sheet may use, each way up that is allowed.
func PapersFor(s job.Sheet, u plane.Units) ([]drawing.Paper, error) {
	name := s.Size
	if name == "" {
		name = sitePaper(u)
	}
	p, ok := drawing.PaperNamed(name)
	if !ok {
		return nil, fmt.Errorf("%q is not a sheet size; use %s", s.Size, paperNames())
	}
	return waysOf(p, s), nil
}

// paperNames lists the sizes there are.
func paperNames() string {
	var out []string
	for _, p := range drawing.Papers() {
		out = append(out, p.Name)
	}
	return strings.Join(out, ", ")
}

// FormPaper is the sheet that forms are set on, whatever the plans are drawn on: it goes
// on a clipboard and into a binder.
func FormPaper(j *job.Job) []drawing.Paper {
	p, _ := drawing.PaperNamed(handOverPaper(j))
	return []drawing.Paper{p}
}

// waysOf returns the ways up in which a job's paper lies, the first that holds a drawing to be taken. A set
// is bound and turned over one way: small sheets stand, larger ones lie unless the job has it otherwise.
func waysOf(p drawing.Paper, s job.Sheet) []drawing.Paper {
	switch s.Orientation {
	case "portrait":
		return []drawing.Paper{p.Portrait()}
	case "landscape":
		return []drawing.Paper{p.Landscape()}
	}
	if IsSmall(p) {
		return []drawing.Paper{p.Portrait()}
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

// Crowded is the distance between runs, mm on paper, below which they are hard
// to count.
const Crowded = 2.5

// ToldApart is the same at which they are told apart at a glance: a plan is not made smaller for what
// stands beside it, and a part of a floor is not drawn smaller.
const ToldApart = 2.0

// Legible is the same below which they cannot be told apart.
const Legible = 1.2

// Narrow reports whether the runs of a room, drawn 1:ratio, lie closer on paper than least mm.
func Narrow(r *layout.Room, ratio, least float64) bool {
	for _, c := range r.Cables {
		if c.Spacing > 0 && c.Spacing/ratio < least {
			return true
		}
	}
	return false
}

// handOverPaper is the sheet that papers for the owner are kept on: of the family that the job's
// paper is of, so that a set is printed from one tray, else the one usual with its units.
func handOverPaper(j *job.Job) string {
	paper := j.Sheet.Size
	if paper == "" {
		paper = sitePaper(j.Figures().Units)
	}
	if p, ok := drawing.PaperNamed(paper); ok && p.ISO() {
		return "A4"
	}
	return "letter"
}

// ArrangeSmall arranges a room's sheet on one page, at a legible scale: of the
// paper that is handed over or, where that does not hold everything, of the one
// the set is drawn on. ok is false when neither does.
func ArrangeSmall(n Need, j *job.Job, r *layout.Room) (a Arrangement, ok bool) {
	all, err := scalesFor(j)
	if err != nil {
		return a, false
	}
	n.Scales = nil
	for _, s := range all {
		if !Narrow(r, s.Ratio, Legible) {
			n.Scales = append(n.Scales, s)
		}
	}
	if len(n.Scales) == 0 {
		return a, false
	}
	n.Levels = slices.DeleteFunc(slices.Clone(n.Levels), func(l Level) bool { return l.Overflow })
	u, sheet := j.Figures().Units, j.Sheet
	for _, size := range []string{handOverPaper(j), sheet.Size} {
		sheet.Size = size
		if n.papers, err = PapersFor(sheet, u); err != nil {
			return a, false
		}
		if a, err = oneWay(n); err == nil {
			return a, true
		}
	}
	return a, false
}

// largestScale is the largest scale that a floor is drawn at when the job asks for
// none: beyond it the sheet gains nothing.
const largestScale = 5

func scalesFor(j *job.Job) ([]drawing.Scale, error) {
	u := j.Figures().Units
	if j.Sheet.Ratio != 0 {
		s, ok := drawing.ScaleOf(j.Sheet.Ratio, u)
		if !ok {
			return nil, fmt.Errorf("%s is not a standard scale", j.Sheet.Scale)
		}
		return []drawing.Scale{s}, nil
	}
	var out []drawing.Scale
	for _, s := range drawing.ScalesFor(u) {
		if s.Ratio >= largestScale {
			out = append(out, s)
		}
	}
	return out, nil
}

// ArrangeFor arranges a sheet on the paper and at the scale that the job asks
// for; when it leaves them open, on the paper usual on a site, or on the next
// larger one where the view would be crowded, at the largest scale that fits.
func ArrangeFor(n Need, j *job.Job, crowded func(ratio float64) bool) (Arrangement, error) {
	var err error
	if n.Scales == nil {
		if n.Scales, err = scalesFor(j); err != nil {
			return Arrangement{}, err
		}
	}
	u, sheet := j.Figures().Units, j.Sheet
	if n.papers, err = PapersFor(sheet, u); err != nil {
		return Arrangement{}, err
	}
	a, err := oneWay(n)
	if sheet.Size != "" || err == nil && (crowded == nil || !crowded(a.Scale.Ratio)) {
		return a, err
	}
	sheet.Size = widePaper(u)
	var wrong error
	if n.papers, wrong = PapersFor(sheet, u); wrong != nil {
		return a, wrong
	}
	if wide, none := oneWay(n); none == nil && (err != nil || wide.Scale.Ratio < a.Scale.Ratio) {
		return wide, nil
	}
	return a, err
}

// oneWay arranges a sheet the first way up that holds it.
func oneWay(n Need) (a Arrangement, err error) {
	ways := n.papers
	for _, p := range ways {
		n.papers = []drawing.Paper{p}
		if a, err = arrange(n); err == nil {
			return a, nil
		}
	}
	return a, err
}

// OnSmall reports whether the sheets of a job are small ones.
func OnSmall(j *job.Job) bool {
	papers, err := PapersFor(j.Sheet, j.Figures().Units)
	return err == nil && IsSmall(papers[0])
}
