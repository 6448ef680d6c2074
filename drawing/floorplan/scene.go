package floorplan

import (
	"fmt"
	"reflect"
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/drawing/signs"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/plane"
)

// A Scene is a sheet with a view to scale: what it shows, and what stands
// beside it.
type Scene struct {
	setting.Kind
	Room     *layout.Room // nil: of no single room
	Bounds   plane.Rect   // mm of floor as it lies on paper, or of a wall
	Right    plane.Point  // of the floor, to the right on paper; zero: the floor's x
	Border   func(ratio float64) (left, right, top, bottom float64)
	Draw     func(v *View)
	Levels   func(v *View) []setting.Level
	Scales   []drawing.Scale          // nil: those that suit a floor
	North    bool                     // a north arrow belongs to it
	crowded  func(ratio float64) bool // whether the scale is too small to read; nil: never
	tooSmall func(ratio float64) bool // whether it is too small for the sake of what stands beside it; nil: never
	Partly   bool                     // it shows a cable that is laid in part
	HandOver bool                     // one page of A4 or letter, where it can be read at that size
	Cut      bool                     // it shows a part of the floor: what lies beyond its borders is cut off
	half     setting.Half             // of the sheet, where two scenes share it
	caption  string                   // in the corner of such a one, which walls and dimensions leave free
}

// OfRoom returns a scene of a kind that shows a room's floor; the rest is
// filled in by whoever draws the sheet.
func OfRoom(k setting.Kind, r *layout.Room) Scene {
	return Scene{
		Kind: k, Room: r, Bounds: TurnedBounds(r.Job), Right: Right(r.Job), North: true,
		Border:   func(ratio float64) (left, right, top, bottom float64) { return Border(r.Job, ratio) },
		crowded:  func(ratio float64) bool { return setting.Narrow(r, ratio, setting.Crowded) },
		tooSmall: func(ratio float64) bool { return setting.Narrow(r, ratio, setting.ToldApart) },
	}
}

// Longest is the longest scale as printed: title blocks are measured with it,
// so that their height does not hang on the scale.
const Longest = `1 1/2" = 1'-0"`

// A scenePage is a page with what found no room on it.
type scenePage struct {
	*setting.Page
	Rest  []setting.Block // for a sheet of notes
	Later []setting.Block // for the next sheet of the room, where that has white for it
}

// Alone draws a scene on one page, and leaves what found no room on it for the notes of
// the set.
func (s Scene) Alone(p *layout.Plan) ([]*setting.Page, error) {
	own, err := s.Page(p)
	if err != nil {
		return nil, err
	}
	own.Over = append(own.Rest, own.Later...)
	return []*setting.Page{own.Page}, nil
}

// Pages draws a scene, and what found no room on its page on sheets of notes.
func (s Scene) Pages(p *layout.Plan) ([]*setting.Page, error) {
	own, err := s.Page(p)
	if err != nil {
		return nil, err
	}
	return own.WithNotes()
}

// Pair draws two scenes of a room on one small sheet of a kind, at one scale. It returns no
// page where the job wants other paper, or where they would be much smaller than alone.
func Pair(p *layout.Plan, k setting.Kind, upper, lower Scene) ([]*setting.Page, error) {
	upper.caption, lower.caption = upper.Title, lower.Title
	lower.North = false // it lies as the one above
	a, b, scale, ok := setting.Halved(upper.Need(p, upper.titleBlock(p, k.Title)),
		lower.Need(p, lower.titleBlock(p, k.Title)), p.Job)
	if !ok {
		return nil, nil
	}
	var both []*setting.Page
	for _, s := range []Scene{upper.onHalf(a, scale), lower.onHalf(b, scale)} {
		pages, err := s.Alone(p)
		if err != nil {
			return nil, err
		}
		both = append(both, pages...)
	}
	pg := both[1]
	pg.Above(both[0])
	pg.Name, pg.Sheet.Title = pg.Sheet.Title, TitleOn(p.Job.Language.Text(k.Title), lower.Room)
	pg.Sheet.ID, pg.Sheet.Description = IdOf(k.ID, lower.Room), k.About
	pg.Title.Title, pg.Title.Kind = pg.Sheet.Title, p.Job.Language.Text(k.Form)
	return both[1:], nil
}

// onHalf is a scene on a half of a sheet, at a scale.
func (s Scene) onHalf(half setting.Half, scale drawing.Scale) Scene {
	s.half, s.Scales = half, []drawing.Scale{scale}
	return s
}

// WithNotes returns a page and the sheets of notes that go with it alone.
func (sp scenePage) WithNotes() ([]*setting.Page, error) {
	more, err := sp.Notes(sp.Sheet.ID+"-notes", sp.Ty.Textf("%s, notes", sp.Sheet.Title), append(sp.Rest, sp.Later...))
	return append([]*setting.Page{sp.Page}, more...), err
}

// TitleOn returns the title of a sheet of a kind, with the name of its room.
func TitleOn(kind string, r *layout.Room) string {
	if r == nil || r.Job.Name == "" {
		return kind
	}
	return kind + " - " + r.Job.Name
}

// IdOf is titleOn for the ID.
func IdOf(kind string, r *layout.Room) string {
	if r == nil || setting.Slug(r.Job.Name) == "" {
		return kind
	}
	return kind + "-" + setting.Slug(r.Job.Name)
}

// Page draws a scene on the sheet that the job asks for, or on the one that
// gives the largest scale.
//
// What a legend has to say and which labels become notes is only known once
// the view is drawn, and takes room itself: so the sheet is drawn again until
// what stands beside it is arranged alike. Should it never settle, what does not
// fit goes on.
func (s Scene) Page(p *layout.Plan) (scenePage, error) {
	name := TitleOn(p.Job.Language.Text(s.Title), s.Room)
	n := s.Need(p, s.titleBlock(p, name))
	last := s.blank(p)
	var a setting.Arrangement
	for i := range 6 {
		levels := s.levels(last)
		if reflect.DeepEqual(levels, n.Levels) {
			break // arranged and drawn by them
		}
		n.Levels = levels
		next, err := s.arranged(n, p.Job)
		if err != nil {
			return scenePage{}, fmt.Errorf("%s: %w", name, err)
		}
		if i > 0 && alike(next, a) { // a drawing hangs on its arrangement alone
			a = next
			break
		}
		last, a = s.drawn(p, next), next
	}
	last.Sheet.ID = IdOf(s.ID, s.Room)
	last.Sheet.Title, last.Sheet.Description, last.Sheet.Ratio = name, s.About, a.Scale.Ratio
	last.Title = s.titleBlock(p, name)
	last.Title.Scale, last.Title.Paper = p.Job.Language.Text(a.Scale.Name), a.Paper.Name
	last.Title.Compact = setting.IsSmall(a.Paper)
	l := s.levels(last)[a.Level]
	return scenePage{last.Page, append(last.Finish(a, l), l.Rest...), l.Later}, nil
}

// levels are what stands beside a view, in both of two languages.
func (s Scene) levels(v *View) []setting.Level {
	return setting.InBoth(s.Levels(v), v.words, v.Ty, setting.OnSmall(v.Plan.Job))
}

// titleBlock returns the scene's title block, still without scale and paper.
func (s Scene) titleBlock(p *layout.Plan, title string) setting.TitleBlock {
	t := setting.TitleFor(p, title, s.Form)
	t.Partly = s.Partly
	return t
}

// arranged arranges a scene: one to be handed over on one small sheet, if that
// can be.
func (s Scene) arranged(n setting.Need, j *job.Job) (setting.Arrangement, error) {
	if s.HandOver {
		if a, ok := setting.ArrangeSmall(n, j, s.Room); ok {
			return a, nil
		}
	}
	return setting.ArrangeFor(n, j, s.crowded)
}

// Need is what a scene asks of its arrangement.
func (s Scene) Need(p *layout.Plan, t setting.TitleBlock) setting.Need {
	t.Scale, t.Paper = Longest, p.Job.Language.Text("tabloid")
	return setting.Need{
		Bounds: s.Bounds, Border: s.Border, Title: t, Proof: setting.Proof{Units: p.Job.Figures().Units},
		Scales: s.Scales, Half: s.half, TooSmall: s.tooSmall,
		Ty: setting.NewTypesetter(p.Job.Language, p.Job.Also...), Titles: map[setting.TitleKey]float64{},
	}
}

// blank returns a view without a drawing that uses every sign, to arrange the
// first trial by.
func (s Scene) blank(p *layout.Plan) *View {
	v := &View{Page: setting.NewPage(p, drawing.Paper{}), Room: s.Room, Fig: p.Job.Figures()}
	for k := signs.Cable; k < signs.Count; k++ {
		v.Used = append(v.Used, k)
	}
	return v
}

// drawn draws the field of an arrangement.
func (s Scene) drawn(p *layout.Plan, a setting.Arrangement) *View {
	v := NewView(setting.NewPage(p, a.Paper), s, a)
	if s.Cut {
		v.Letters.Field = s.window(v)
	}
	corner := drawing.Pt{X: a.Field.X0, Y: a.Field.Y0}
	if s.caption != "" {
		v.ViewTitle(corner.Add(drawing.Pt{Y: setting.Heading}), v.Fig.Text(s.caption))
		corner.Y += setting.HeadRow
	}
	if s.North {
		v.north(corner)
	}
	s.Draw(v)
	if s.Cut {
		v.Letters.Labels = lettering.Without(v.Letters.Labels, func(l *lettering.Label) bool {
			return !v.field().Holds(l.Subject)
		})
	}
	v.settle()
	if s.Cut {
		v.Sheet.Items = drawing.Within(v.Sheet.Items, v.field())
	}
	whole := v.words
	for _, t := range v.Sheet.Texts() {
		if !slices.ContainsFunc(whole, func(w string) bool { return strings.Contains(w, t.Text) }) {
			v.words = append(v.words, t.Text)
		}
	}
	return v
}

// window is where on paper a scene's bounds and borders lie.
func (s Scene) window(v *View) drawing.Box {
	left, right, top, bottom := s.Border(v.Paper.Ratio)
	b := drawing.BoxOf(v.Paper.TurnedPt(s.Bounds.Min), v.Paper.TurnedPt(s.Bounds.Max))
	return drawing.Box{X0: b.X0 - left, Y0: b.Y0 - top, X1: b.X1 + right, Y1: b.Y1 + bottom}
}

// alike reports whether two arrangements share out their sheet alike.
func alike(a setting.Arrangement, b setting.Arrangement) bool {
	return a.Scale == b.Scale && a.Paper == b.Paper && a.Field == b.Field && a.Level == b.Level
}

// settle places the lettering of the field. A label without a place becomes a
// numbered note, its number standing by its subject where that is possible.
func (v *View) settle() {
	v.Letters.Place()
	var numbers []*lettering.Label
	for i, l := range v.Letters.Homeless() {
		v.Noted = append(v.Noted, l.Note)
		numbers = append(numbers, noteNumber(strconv.Itoa(i+1), l.Subject))
	}
	for _, m := range numbers {
		v.Letters.Add(m)
		v.Letters.Put(m, v.Letters.Cheapest(m))
	}
	items, shown := v.Letters.Drawn()
	v.Add(items...)
	for _, s := range shown {
		v.Uses(s)
	}
}

// noteNumber is the number of a note, on what the note is of or beside it.
func noteNumber(n string, at drawing.Pt) *lettering.Label {
	m := &lettering.Label{Text: n, Height: drawing.H25, Rank: 9, Subject: at, Mark: signs.NoteMark,
		Of: signs.Note, Option: true}
	m.Spots = []lettering.Spot{{At: at, Cost: 1}}
	sunk := m.Sample(lettering.Spot{}).Box().Centre().Y // a mark stands about its middle, lettering on its baseline
	for _, s := range TagSpots(at, 1.5, "00") {
		s.At.Y += sunk
		m.Spots = append(m.Spots, s)
	}
	return m
}
