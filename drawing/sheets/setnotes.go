package sheets

import (
	"cmp"
	"slices"
	"strings"

	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
)

// notesID is the kind of the sheets that take what the drawings have no room for.
const notesID = "notes"

// setNotes sets what the drawings of a set had no room for together, on as few sheets
// as that takes.
func setNotes(p *layout.Plan, pages []*setting.Page) ([]*setting.Page, error) {
	for _, pg := range pages {
		if slices.ContainsFunc(pg.Over, worthSheet) {
			return fewest(setAside(p, pages), func(blocks []setting.Block) ([]*setting.Page, error) {
				return notesOn(p, pg, blocks)
			})
		}
	}
	return nil, nil
}

// worthSheet reports whether a block must have its place on notes: not the floor cut open, a picture more
// where there is room.
func worthSheet(b setting.Block) bool {
	_, more := setting.Unmeasured(b).(cutaway)
	return !more
}

// notesOn sets blocks on the paper of forms where one such sheet holds them, else on that of a page: larger
// paper would be mostly white.
func notesOn(p *layout.Plan, pg *setting.Page, blocks []setting.Block) ([]*setting.Page, error) {
	if k := kindNamed(notesID); !onSmall(p) {
		one, err := setting.ListSheets(p, setting.FormPaper(p.Job), k.ID, k.Title, k.Form, blocks)
		if err == nil && len(one) == 1 {
			return one, nil
		}
		if plain, ok := setting.PlainPrint(blocks); ok { // fine print is for small paper
			blocks = plain
		}
	}
	return pg.Notes(notesID, kindNamed(notesID).Title, blocks)
}

// fewest sets blocks in the order that takes the fewest sheets, of those alike the first.
func fewest(orders [][]setting.Block, set func([]setting.Block) ([]*setting.Page, error)) (best []*setting.Page,
	err error) {
	for _, blocks := range orders {
		pages, wrong := set(blocks)
		if wrong != nil {
			return nil, wrong
		}
		if best == nil || len(pages) < len(best) {
			best = pages
		}
	}
	return best, nil
}

// inPrint are orders of blocks in fine or plain print, as printed has them; nil where it changes none.
func inPrint(orders [][]setting.Block, printed func([]setting.Block) ([]setting.Block, bool)) (out [][]setting.Block) {
	for _, blocks := range orders {
		if as, ok := printed(blocks); ok {
			out = append(out, as)
		}
	}
	return out
}

// setAside is what pages leave over. One legend does for all of them: a sign means the same on
// every sheet. It stands last in a column or, in the other order, first and as wide as a sheet.
func setAside(p *layout.Plan, pages []*setting.Page) (orders [][]setting.Block) {
	var blocks []setting.Block
	var used []signs.Sign
	for _, pg := range pages {
		for _, b := range pg.Over {
			if l, ok := setting.Unmeasured(b).(setting.Legend); ok {
				used = append(used, l.Signs...)
				continue
			}
			blocks = append(blocks, setting.Of(b, sheetName(p, pg), len(p.Rooms) > 1, p.Job.Language))
		}
	}
	blocks = setting.MergedKeys(blocks, p.Job.Language)
	if len(used) > 0 {
		l := setting.LegendOf(lettering.Without(used, evident), p.Job.Language)
		l.Head, l.Fine = setting.Continued(l.Head), onSmall(p)
		last := append(slices.Clone(blocks), l)
		l.Span = true
		return [][]setting.Block{last, append([]setting.Block{l}, blocks...)}
	}
	return [][]setting.Block{blocks}
}

// filled sets blocks on sheets without a drawing and, into the white of the last, what suits of
// what pages leave over, as it is then set: so much as takes no sheet more, of a list the last of its
// paragraphs where not all do. What is set is left over no longer.
func filled(p *layout.Plan, set func([]setting.Block) ([]*setting.Page, error), blocks []setting.Block,
	pages []*setting.Page, suits func(setting.Block) (as setting.Block, ok bool)) ([]*setting.Page, error) {
	out, err := set(blocks)
	if err != nil {
		return nil, err
	}
	takes := func(pg *setting.Page, b setting.Block) bool {
		more := append(slices.Clone(blocks), setting.Of(b, sheetName(p, pg), len(p.Rooms) > 1, p.Job.Language))
		next, err := set(more)
		if err != nil || len(next) > len(out) {
			return false
		}
		blocks, out = more, next
		return true
	}
	for _, pg := range pages {
		var left []setting.Block
		for _, b := range pg.Over {
			as, ok := suits(setting.Unmeasured(b))
			switch l, isList := as.(setting.List); {
			case !ok:
				left = append(left, b)
			case takes(pg, as):
			case isList:
				left = append(left, lastParas(l, func(last setting.List) bool { return takes(pg, last) }))
			default:
				left = append(left, b)
			}
		}
		pg.Over = left
	}
	return inPlainPrint([][]setting.Block{blocks}, out, set), nil
}

// inPlainPrint sets blocks, in one of some orders, without fine print where that takes no sheet more than the pages
// they are set on.
func inPlainPrint(orders [][]setting.Block, pages []*setting.Page,
	set func([]setting.Block) ([]*setting.Page, error)) []*setting.Page {
	if plain := inPrint(orders, setting.PlainPrint); plain != nil {
		if larger, err := fewest(plain, set); err == nil && len(larger) <= len(pages) {
			return larger
		}
	}
	return pages
}

// lastParas gives as many of a list's last paragraphs away as are taken, and returns what is left.
func lastParas(l setting.List, taken func(setting.List) bool) setting.List {
	for k := 1; k < len(l.Paras)-l.Bare; k++ { // what has no number does not go alone
		if first, last := l.Parted(k); taken(last) {
			first.Span = false
			return first
		}
	}
	l.Span = false
	return l
}

// sheetName is what notes call the sheet that they are of: without its room where there
// is one only.
func sheetName(p *layout.Plan, pg *setting.Page) string {
	full := cmp.Or(pg.Name, pg.Sheet.Title)
	name, _, _ := strings.Cut(full, " - ")
	if len(p.Rooms) > 1 {
		return full
	}
	return name
}

// drawings are the pages of a set, and those whose drawings stand above theirs on one sheet.
func drawings(pages []*setting.Page) (out []*setting.Page) {
	for _, pg := range pages {
		if pg.Upper != nil {
			out = append(out, pg.Upper)
		}
		out = append(out, pg)
	}
	return out
}
