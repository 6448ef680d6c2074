// Package sheets draws a plan as a set of sheets, one kind of sheet a file.
//
// A sheet is a frame with a field for the drawing, a column or a strip of
// blocks (tables, legend, notes), and a title block at the lower right. Blocks
// are set in rows; lettering in the field is placed by one solver; nothing is
// placed by hand.
package sheets

import (
	"errors"
	"fmt"
	"slices"

	"github.com/sourcegraph/conc/iter"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
)

// Set draws all sheets of a plan, in the order of the work. An error says
// which sheet cannot be drawn as asked and by how much; the plan must be one
// that build.Plan has no errors for.
func Set(p *layout.Plan) ([]*drawing.Sheet, error) {
	set, _, err := NumberedSet(p, nil)
	return set, err
}

// NumberedSet is Set with how the sheets are numbered. Once stop, which may be nil, returns true no
// more sheets are drawn and the error is ErrStopped.
func NumberedSet(p *layout.Plan, stop func() bool) ([]*drawing.Sheet, Numbering, error) {
	pages, err := setPages(p, stop)
	if err != nil {
		return nil, Numbering{}, err
	}
	set := numbered(pages)
	return set, numberingOf(pages), nil
}

// ErrStopped says that nobody wants the sheets any more.
var ErrStopped = errors.New("the sheets are not wanted any more")

// unless is draw as long as nobody stops it.
func (draw drawFunc) unless(stop func() bool) drawFunc {
	if draw == nil || stop == nil {
		return draw
	}
	return func(p *layout.Plan) ([]*setting.Page, error) {
		if stop() {
			return nil, ErrStopped
		}
		return draw(p)
	}
}

// setPages draws the pages of a set, still without numbers.
func setPages(p *layout.Plan, stop func() bool) ([]*setting.Page, error) {
	for _, r := range p.Rooms {
		if len(r.Job.Outline) < 3 {
			return nil, fmt.Errorf("room %q has no outline to draw", r.Job.Name)
		}
	}
	kinds := registry()
	draws := make([]drawFunc, len(kinds))
	for i, k := range kinds {
		draws[i] = k.draw.unless(stop)
	}
	drawn, err := drawAll(p, draws)
	if err != nil {
		return nil, err
	}
	over := drawings(slices.Concat(drawn...))
	aside := layersAside(p)
	if aside != nil {
		over = append(over, aside)
	}
	offered, err := forCover(p, aside)
	if err != nil {
		return nil, err
	}
	for _, left := range []struct {
		id  string
		set func(*layout.Plan, []*setting.Page) ([]*setting.Page, error)
	}{{takeOffID, takeOff}, {detailsID, details}, {notesID, setNotes}} {
		if stop != nil && stop() {
			return nil, ErrStopped
		}
		more, err := left.set(p, over)
		if err != nil {
			return nil, err
		}
		for _, pg := range more { // notes that go on from the details have a place of their own
			at := slices.IndexFunc(kinds, func(k registered) bool { return k.ID == pg.Sheet.ID })
			drawn[at] = append(drawn[at], pg)
		}
	}
	all := slices.Concat(drawn...)
	first, err := cover(p, indexOf(all), offered)
	return append(first, all...), err
}

// A drawFunc draws some of a set's sheets. It only reads the plan.
type drawFunc func(*layout.Plan) ([]*setting.Page, error)

// drawAll calls the functions of a set at the same time, and returns the pages of each:
// how many run at once makes no difference to the sheets. One that is nil has none.
// The error is that of the first that has one.
func drawAll(p *layout.Plan, draws []drawFunc) ([][]*setting.Page, error) {
	pages, errs := make([][]*setting.Page, len(draws)), make([]error, len(draws))
	iter.ForEachIdx(draws, func(i int, draw *drawFunc) {
		if *draw != nil {
			pages[i], errs[i] = (*draw)(p)
		}
	})
	for _, err := range errs {
		if err != nil {
			return nil, err
		}
	}
	return pages, nil
}

// eachRoom draws a kind of sheet for every room.
func eachRoom(draw func(*layout.Plan, *layout.Room) ([]*setting.Page, error)) drawFunc {
	return func(p *layout.Plan) ([]*setting.Page, error) {
		rooms := make([]drawFunc, len(p.Rooms))
		for i := range p.Rooms {
			rooms[i] = func(p *layout.Plan) ([]*setting.Page, error) { return draw(p, &p.Rooms[i]) }
		}
		pages, err := drawAll(p, rooms)
		return slices.Concat(pages...), err
	}
}

// numbered draws the title blocks, now that the number of sheets is known, and
// makes the sheets' names and labels unlike.
func numbered(pages []*setting.Page) []*drawing.Sheet {
	named := labels(pages)
	var out []*drawing.Sheet
	for i, pg := range pages {
		pg.Sheet.Label = named[i]
	}
	setting.NameSheets(pages, setting.DetailSheets(pages))
	for i, pg := range pages {
		numberPage(pg, i+1, len(pages))
		out = append(out, pg.Sheet)
	}
	uniqueIDs(pages)
	return out
}

// numberPage draws the title block of a page that is labelled.
func numberPage(pg *setting.Page, n, of int) {
	pg.Title.Label, pg.Title.N, pg.Title.Of = pg.Sheet.Label, n, of
	w := pg.TitleAt.W() // in the frame's corner: with its number it may be lower than was kept free
	pg.Title.Set(pg, drawing.Pt{X: pg.TitleAt.X0, Y: pg.TitleAt.Y1 - pg.Title.Height(pg.Ty, w)}, w)
}

// uniqueIDs makes the IDs of sheets unlike.
func uniqueIDs(pages []*setting.Page) {
	seen := map[string]bool{}
	for _, pg := range pages {
		id := pg.Sheet.ID
		for n := 2; seen[pg.Sheet.ID]; n++ {
			pg.Sheet.ID = fmt.Sprintf("%s-%d", id, n)
		}
		seen[pg.Sheet.ID] = true
	}
}

// labels are what the sheets of a set are called: by their kinds, each counted on its own.
func labels(pages []*setting.Page) (out []string) {
	count := map[string]int{}
	for _, pg := range pages {
		code := codeOf(pg.Sheet.ID)
		count[code]++
		out = append(out, fmt.Sprintf("%s-%d", code, count[code]))
	}
	return out
}
