package sheets

import (
	"fmt"
	"slices"
	"strings"

	"oxturn/layout/language"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/money"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// coverID is the kind of the sheet that a proposal begins with.
const coverID = "cover"

// cover sets what a proposal offers, before the sheets that say how it is built: what the
// floor is to be, what that costs with tax, how long it holds, and where to sign. What a
// piece costs, and the markup, are on the take-off alone.
//
// It shows each floor: as warm as it is to be where that is taken for it, and closes with what else is.
func cover(p *layout.Plan, others []indexed, taken []setting.Block) ([]*setting.Page, error) {
	if p.Offer == nil {
		return nil, nil
	}
	var blocks, last []setting.Block
	for _, b := range taken {
		if _, warm := b.(warmFloor); warm {
			blocks = append(blocks, b)
		} else {
			last = append(last, b)
		}
	}
	for i := range p.Rooms {
		if r := &p.Rooms[i]; len(r.Cables) > 0 && i < mostPictures && len(blocks) <= i {
			blocks = append(blocks, floorPicture{r})
		}
	}
	f := p.Job.Figures()
	blocks = append(blocks, listOf(f.Text("Scope"), scope(p), f))
	blocks = append(blocks, priceTable(p), optionTable(p), runningCost(p), listOf(f.Text("Not included"),
		exclusions(p), f),
		listOf(f.Text("Terms"), terms(p), f), signatures(f), sheetIndex(f, others))
	k := kindNamed(coverID)
	return setting.ListSheets(p, setting.FormPaper(p.Job), coverID, k.Title, k.Form, without(append(blocks, last...)))
}

// forCover takes off what a page leaves over what the cover of small sets has room for: the warmth of its
// floors, in place of their cables, and what rooms lose.
func forCover(p *layout.Plan, aside *setting.Page) ([]setting.Block, error) {
	if aside == nil || p.Offer == nil || !onSmall(p) || len(p.Rooms) > mostPictures {
		return nil, nil
	}
	listed := mostListed(p)
	alone, err := cover(p, listed, nil)
	if err != nil {
		return nil, err
	}
	var taken, left []setting.Block
	for _, b := range aside.Over {
		own := setting.Unmeasured(b)
		l, list := own.(setting.List)
		_, warm := own.(warmFloor)
		if warm || list && strings.HasPrefix(l.Head, p.Job.Language.Text(lossHead)) {
			if set, err := cover(p, listed, append(slices.Clone(taken), own)); err == nil && len(set) <= len(alone) {
				taken = append(taken, own)
				continue
			}
		}
		left = append(left, b)
	}
	aside.Over = left
	return taken, nil
}

// mostListed are as many sheets as follow a cover of small sets at most: it takes what it has room for
// before they are drawn.
func mostListed(p *layout.Plan) []indexed {
	const eachRoom, once = 4, 6 // field sheet, membrane and tile, electrician's and map; details, notes and take-off
	n := eachRoom*len(p.Rooms) + once
	for i := range p.Rooms {
		n += len(p.Rooms[i].Cables) // test records
	}
	return make([]indexed, n)
}

// mostPictures is how many rooms have their picture on a cover; a key plan shows all.
const mostPictures = 2

// without leaves out blocks that there are none of.
func without(blocks []setting.Block) (out []setting.Block) {
	for _, b := range blocks {
		switch t := b.(type) {
		case setting.Table:
			if len(t.Rows) == 0 {
				continue
			}
		case setting.List:
			if len(t.Paras) == 0 {
				continue
			}
		}
		out = append(out, b)
	}
	return out
}

func listOf(head string, paras []string, f say.Figures) setting.List {
	for i := range paras {
		paras[i] = ownUnits(paras[i], f)
	}
	return setting.List{Head: head, Number: 1, Paras: paras}
}

// scope is what is done: the floor by its areas and cables, and what the job adds.
func scope(p *layout.Plan) []string {
	out := language.In(p.Job.Language, p.TakeOff.Inclusions)
	for i := range p.Rooms {
		r := &p.Rooms[i]
		for _, c := range r.Cables {
			if p.Job.Strips != nil {
				out = append(out, p.Job.Language.Textf("%s: heating cable %s, %s, %s, clipped to strips under tile.",
					r.Job.Name, c.Label.ID, p.Job.Figures().Volts(c.Label.Volts), p.Job.Figures().Watts(c.Label.Watts)))
				continue
			}
			out = append(out, p.Job.Language.Textf("%s: heating cable %s, %s, %s, in a pegged membrane under tile.",
				r.Job.Name, c.Label.ID, p.Job.Figures().Volts(c.Label.Volts), p.Job.Figures().Watts(c.Label.Watts)))
		}
	}
	return append(out, p.Job.Proposal.Scope...)
}

func exclusions(p *layout.Plan) []string {
	return append(language.In(p.Job.Language, p.TakeOff.Exclusions), p.Job.Proposal.Exclusions...)
}

// priceTable is what the floor costs, group by group; empty where nothing has a price.
func priceTable(p *layout.Plan) setting.Table {
	o, t := p.Offer, p.Job.Proposal
	out := setting.Table{Head: p.Job.Language.Text("Price"), Cols: priceColumns(p)}
	if o.Net == 0 {
		return out
	}
	for _, group := range o.Groups {
		out.Rows = append(out.Rows, setting.Row(p.Job.Language.Text(group.Name), group.Sum.String()))
	}
	if o.Tax != 0 {
		out.Rows = append(out.Rows, setting.Row(p.Job.Language.Text("Sum"), o.Net.String()),
			setting.Row(taxWords(p.Job.Figures(), t), o.Tax.String()))
	}
	total := setting.Row(p.Job.Language.Text("Total"), o.Total.String())
	for i := range total {
		total[i].Strong = true
	}
	out.Rows = append(out.Rows, total)
	return out
}

func priceColumns(p *layout.Plan) []setting.Column {
	price := p.Job.Language.Text("Price")
	if c := p.Job.Currency; c != "" {
		price += ", " + c
	}
	return []setting.Column{{Head: p.Job.Language.Text("What"), Wraps: true}, {Head: price, Align: setting.Decimal}}
}

func taxWords(f say.Figures, t job.ProposalTerms) string {
	return fmt.Sprintf("%s, %s %%", t.TaxName, f.TrimFigure(100*t.Tax))
}

// optionTable is what can be had on top.
func optionTable(p *layout.Plan) setting.Table {
	out := setting.Table{Head: p.Job.Language.Text("Options"), Cols: priceColumns(p)}
	if p.Job.Proposal.Tax > 0 {
		out.Head += p.Job.Language.Textf(", %s included", p.Job.Proposal.TaxName)
	}
	for _, o := range p.Offer.Options {
		price := p.Job.Language.Text("on request")
		if o.Price != 0 {
			price = o.Price.String()
		}
		out.Rows = append(out.Rows, setting.Row(o.Name, price))
	}
	return out
}

// runningCost is what the floor draws, as a range.
func runningCost(p *layout.Plan) setting.Block {
	if p.Warmth == nil || len(p.Warmth.Use) == 0 {
		return setting.List{}
	}
	t := energyTable(p.Job.Figures(), p.Warmth, p.Job.Energy.Currency, false)
	t.Head = p.Job.Language.Text("Running cost, estimated")
	return t
}

// terms are what the offer stands on.
func terms(p *layout.Plan) []string {
	o, t := p.Offer, p.Job.Proposal
	out := []string{p.Job.Language.Textf("This offer holds for %d days from its date.", t.ValidDays)}
	if !o.Until.IsZero() {
		out[0] = p.Job.Language.Textf("This offer holds until %s.", o.Until.Format("2006-01-02"))
	}
	if t.Deposit != "" {
		out = append(out, p.Job.Language.Textf("Payment: %s.", strings.TrimSuffix(t.Deposit, ".")))
	}
	switch {
	case o.Net == 0:
		out = append(out, p.Job.Language.Text("The price is still to be agreed: ____________________."))
	case t.Tax == 0:
		out = append(out, p.Job.Language.Text("No tax is counted in."))
	}
	if o.Net != 0 && len(o.Unpriced) > 0 {
		out = append(out, p.Job.Language.Textf("Still without a price, and not in the total: %s.",
			strings.Join(language.In(p.Job.Language, o.Unpriced), ", ")))
	}
	return append(out, p.Job.Language.Text("It rests on the sizes given. The cable is ordered only after the "+
		"finished walls are measured: it cannot be shortened or lengthened, and is seldom taken back once unwound."),
		p.Job.Language.Text("Floor warming, not room heating."))
}

// signatures is where both sides sign.
func signatures(f say.Figures) setting.Block {
	return setting.Table{Head: f.Text("Agreed"), Tall: 11, Cols: []setting.Column{{Head: f.Text("For")},
		{Head: f.Text("Name, signature"),
			Wraps: true}, {Head: f.Text("Date"), Least: 22}},
		Rows: [][]setting.Cell{setting.Row(f.Text("Client"), "", ""), setting.Row(f.Text("Contractor"), "", "")}}
}

// coverAlone is the cover over the sheets that a set had before; nil where it shows how warm floors are from place
// to place, which is worked out last.
func coverAlone(p *layout.Plan, before Numbering) ([]*setting.Page, error) {
	if len(before.index) == 0 || layersAside(p) != nil {
		return nil, nil
	}
	return cover(p, before.index, nil)
}

// An indexed is a sheet as the cover lists it.
type indexed struct{ label, title string }

// indexOf are the pages that follow a cover.
func indexOf(pages []*setting.Page) (out []indexed) {
	for i, label := range labels(pages) {
		out = append(out, indexed{label, pages[i].Sheet.Title})
	}
	return out
}

// sheetIndex lists the sheets that follow.
func sheetIndex(f say.Figures, others []indexed) setting.Block {
	t := setting.Table{Head: f.Text("Sheets of the set"),
		Cols: []setting.Column{{Head: f.Text("Sheet")}, {Head: f.Text("Title"), Wraps: true}}}
	for _, s := range others {
		t.Rows = append(t.Rows, setting.Row(s.label, s.title))
	}
	return t
}

// offerBlocks are how an offer is reckoned, for whoever makes it: they stand with the
// take-off, which owners do not get.
func offerBlocks(p *layout.Plan) []setting.Block {
	o, t := p.Offer, p.Job.Proposal
	if o == nil || o.Net == 0 {
		return nil
	}
	out := setting.Table{Head: p.Job.Language.Text("The offer"), Cols: priceColumns(p)}
	for _, r := range []struct {
		what string
		sum  money.Cents
	}{
		{p.Job.Language.Text("Cost, of what has a price"), o.Cost},
		{p.Job.Language.Textf("Markup, %s %%, on each part", p.Job.Figures().TrimFigure(100*t.Markup)), o.Markup},
		{p.Job.Language.Text("Sum"), o.Net}, {taxWords(p.Job.Figures(), t), o.Tax},
		{p.Job.Language.Text("Total, as offered"), o.Total},
	} {
		if r.sum != 0 {
			out.Rows = append(out.Rows, setting.Row(r.what, r.sum.String()))
		}
	}
	return []setting.Block{out}
}

// A floorPicture shows a room's floor, at no scale: tile, cable and what stands on it.
type floorPicture struct{ room *layout.Room }

// pictureHigh is how high a picture is at most, mm.
const pictureHigh = 62.0

// ratio is how many mm of floor are one of paper.
func (b floorPicture) ratio(w float64) float64 {
	box := b.room.Job.Outline.Bounds()
	return max(box.W()/(w-4), box.H()/pictureHigh)
}

// Height is what the picture of the floor takes at a width of w, both mm of paper.
func (b floorPicture) Height(ty *setting.Typesetter, w float64) float64 {
	return ty.HeadingHeight(b.head(), w) + b.room.Job.Outline.Bounds().H()/b.ratio(w) + 3
}

func (b floorPicture) head() string { return b.room.Job.Name }

// Set draws the picture with its upper left corner at a point.
func (b floorPicture) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, b.head(), w)
	r, k, box := b.room, b.ratio(w), b.room.Job.Outline.Bounds()
	pt := func(p plane.Point) drawing.Pt {
		return drawing.Pt{X: at.X + 2 + (p.X-box.Min.X)/k, Y: y + 1 + (box.Max.Y-p.Y)/k}
	}
	pts := func(line []plane.Point) (out []drawing.Pt) {
		for _, p := range line {
			out = append(out, pt(p))
		}
		return out
	}
	if len(r.Tiles) > 0 && r.Tiles[0].Width/k > leastTile {
		var segs []drawing.Seg
		for _, s := range r.Tiles[0].Joints() {
			segs = append(segs, drawing.Polyline(pt(s.A), pt(s.B))...)
		}
		pg.Path(drawing.LayerFloor, "joints of the tile", segs, &drawing.Stroke{Width: drawing.W013,
			Colour: drawing.Grey(0.5)}, nil)
	}
	for _, s := range r.Job.Stands() {
		pg.Path(drawing.LayerFixtures, s.Name, drawing.Polygon(pts(s.Outline)...), drawing.ThinLine(),
			drawing.Filled(drawing.White))
	}
	for i := range r.Cables {
		c := &r.Cables[i]
		pg.Path(drawing.LayerHatch, "heating cable "+c.ID, drawing.Rounded(pts(c.Path), c.BendRadius/k),
			&drawing.Stroke{Width: drawing.W035, Colour: drawing.HeatRed}, nil)
	}
	pg.Path(drawing.LayerWalls, "walls", drawing.Polygon(pts(r.Job.Outline)...), drawing.WallLine(), nil)
}
