package sheets

import (
	"slices"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/symbols"
)

// A detail is a piece of the floor or of its section at a large scale. The plans call it out
// by a bubble with its number over the sheet that it stands on; it is titled with the same.
type detail struct {
	figure
	number int
	of     detailOf
	room   *layout.Room // nil: of the whole job
	name   string
}

// A figure is what a detail shows.
type figure interface {
	setting.Block
	// scaleName is the scale it is drawn at when it is so wide.
	scaleName(w float64) string
}

// detailOf is what a detail is of.
type detailOf int

// What details are of, in the order of their numbers.
const (
	ofCrossing detailOf = iota
	ofRise
	ofJoints
	ofCaps
	ofSection
)

// detailsOf numbers the details of a job: the channel crossing of each room, whose figures are
// its own; lead rise, joints and caps of the first room that has them, which are alike in the
// others; and sections of the layers.
func detailsOf(p *layout.Plan) []detail {
	var out []detail
	add := func(of detailOf, r *layout.Room, name string, f figure) {
		out = append(out, detail{figure: f, number: len(out) + 1, of: of, room: r, name: name})
	}
	for i := range p.Rooms {
		if f := crossingDetailOf(roomView(p, &p.Rooms[i])); f != nil {
			add(ofCrossing, &p.Rooms[i], nameIn(p, p.Job.Language.Text("Crossing P1"), &p.Rooms[i]), *f)
		}
	}
	for i := range p.Rooms {
		if r := &p.Rooms[i]; len(r.Cables) > 0 {
			for _, c := range closeupsOf(p, r) {
				add(c.of, r, c.name, c)
			}
			break
		}
	}
	for _, d := range jointDetailsOf(p) {
		add(ofSection, nil, d.name(), d)
	}
	return out
}

// nameIn is a detail's name, with its room where there are several.
func nameIn(p *layout.Plan, name string, r *layout.Room) string {
	if len(p.Rooms) > 1 {
		return name + ", " + r.Job.Name
	}
	return name
}

// roomView is a view of a room that nothing is drawn in.
func roomView(p *layout.Plan, r *layout.Room) *floorplan.View {
	return &floorplan.View{Page: setting.NewPage(p, drawing.Paper{}), Room: r, Fig: p.Job.Figures(), Out: 1,
		Paper: floorplan.PaperOf(r.Job)}
}

// detailBlocks are the details of a kind that stand with a room; r nil: with the whole job.
func detailBlocks(p *layout.Plan, r *layout.Room, kinds ...detailOf) []setting.Block {
	var out []setting.Block
	for _, d := range detailsOf(p) {
		for _, k := range kinds {
			if d.of == k && d.room == r {
				out = append(out, d)
			}
		}
	}
	return out
}

// details draws the sheets of what found no room beside the plans: how each room's cable is
// laid, in pictures, and what the plans call out. It takes them off what pages leave over.
// Notes follow in the white that is left: on small sheets as they come, on larger ones as far
// as they take no sheet more.
func details(p *layout.Plan, pages []*setting.Page) ([]*setting.Page, error) {
	var pictures, enlarged []setting.Block
	for _, pg := range pages {
		for _, b := range pg.Over {
			switch own := setting.Unmeasured(b).(type) {
			case phases:
				pictures = append(pictures, own)
			case detail:
				enlarged = append(enlarged, own)
			}
		}
		pg.Over = slices.DeleteFunc(slices.Clone(pg.Over), isDetail)
	}
	blocks := append(pictures, enlarged...)
	if len(blocks) == 0 {
		return nil, nil
	}
	set := func(blocks []setting.Block) ([]*setting.Page, error) { return detailSheets(p, blocks) }
	if !onSmall(p) {
		return filled(p, set, blocks, pages, func(b setting.Block) (setting.Block, bool) {
			return b, !setting.IsLegend(b)
		})
	}
	own, err := set(blocks)
	if err != nil {
		return nil, err
	}
	orders := setAside(p, pages)
	after := func(aside []setting.Block) ([]*setting.Page, error) { return set(slices.Concat(blocks, aside)) }
	out, err := fewest(orders, after)
	if fine := inPrint(orders, setting.FinePrint); err == nil && fine != nil && len(out) > len(own)+1 {
		if finer, wrong := fewest(fine, after); wrong == nil && len(finer) < len(out) {
			out = finer
		}
	}
	if err == nil {
		out = inPlainPrint(orders, out, after)
	}
	for i, pg := range out {
		if i >= len(own) && len(pg.Details) == 0 {
			setting.Retitle(pg, notesID, kindNamed(notesID).Title, kindNamed(notesID).Form)
		}
	}
	for _, pg := range pages {
		pg.Over = nil
	}
	return out, err
}

// isDetail reports whether a block has its place on the sheet of details.
func isDetail(b setting.Block) bool {
	switch setting.Unmeasured(b).(type) {
	case phases, detail:
		return true
	}
	return false
}

// detailSheets sets blocks on sheets of details: those of the set where it is small, else forms.
func detailSheets(p *layout.Plan, blocks []setting.Block) ([]*setting.Page, error) {
	papers, err := setting.PapersFor(p.Job.Sheet, p.Job.Figures().Units)
	if err != nil {
		return nil, err
	}
	if !setting.IsSmall(papers[0]) {
		papers = setting.FormPaper(p.Job)
	}
	k := kindNamed(detailsID)
	return setting.ListIn(setting.DetailWidths(), p, papers, k.ID, k.Title, k.Form, blocks)
}

// detailsID is the kind of the sheet of details.
const detailsID = "details"

// detailHead is the height of a detail's title, mm on paper.
const detailHead = symbols.CalloutSize + 2

// Height is what the figure under its number and name takes at a width of w, both mm of paper.
func (d detail) Height(ty *setting.Typesetter, w float64) float64 {
	return max(detailHead, ty.HeadingHeight(d.name, w-headIn)+setting.Leading+1) + d.figure.Height(ty, w)
}

// headIn is from the left of a detail to the words of its title, mm on paper.
const headIn = symbols.CalloutSize + 3

// Set draws the figure under its number and name from at, and notes on the page that the detail is
// there.
func (d detail) Set(pg *setting.Page, at drawing.Pt, w float64) {
	pg.Details = append(pg.Details, d.number)
	pg.Add(pg.Callout(d.number, at.Add(drawing.Pt{X: symbols.CalloutSize/2 + 0.2, Y: symbols.CalloutSize / 2}))...)
	words := setting.SetHeading(pg, at.Add(drawing.Pt{X: headIn, Y: 0.8}), d.name, w-headIn)
	pg.Write(at.Add(drawing.Pt{X: headIn, Y: words + setting.Note - 0.6}), d.scaleName(w), setting.Note, drawing.Start)
	head := max(detailHead, words+setting.Leading+1)
	d.figure.Set(pg, at.Add(drawing.Pt{Y: head}), w)
}
