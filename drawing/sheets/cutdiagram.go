package sheets

import (
	"slices"
	"strconv"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/floorplan"
	"oxturn/drawing/lettering"
	"oxturn/drawing/setting"
	"oxturn/fonts"
	"oxturn/layout/membrane"
	"oxturn/layout/say"
)

// A cutDiagram shows how one roll or sheet is cut, to the width of its column.
type cutDiagram struct {
	number int
	pack   membrane.Pack
	stock  membrane.Stock
	fig    say.Figures
	long   float64 // mm of the longest roll used, so that all are drawn alike
	mine   map[int]bool
}

// cutDiagrams returns the diagrams of the rolls or sheets that pieces of a room
// are cut from. Single sheets that give one piece each are a table; on small paper, a roll
// of which every crosscut is a piece is words.
func cutDiagrams(m *membrane.Plan, laid *membrane.Laid, f say.Figures, small bool) []setting.Block {
	mine := map[int]bool{}
	for _, p := range laid.Pieces {
		mine[p.Number] = true
	}
	long := 0.0
	for _, p := range m.Packs {
		long = max(long, used(p))
	}
	if m.Stock.Sheets {
		long = m.Stock.Length
	}
	var out []setting.Block
	ones := setting.Table{Head: f.Text("Sheets that give one piece"),
		Cols: []setting.Column{{Head: capital(f.Text("sheet")), Align: setting.Decimal},
			{Head: f.Text("Piece"), Wraps: true},
			{Head: f.Text("Cut to"), Align: setting.Decimal}}}
	for i, p := range m.Packs {
		switch {
		case !slices.ContainsFunc(p.Cuts, func(c membrane.Crosscut) bool { return cutsAny(c, mine) }):
		case m.Stock.Sheets && len(p.Cuts) == 1 && len(p.Cuts[0].Places) == 1:
			ones.Rows = append(ones.Rows, setting.Row(strconv.Itoa(i+1), "M"+strconv.Itoa(p.Cuts[0].Places[0].Piece),
				f.Length(p.Cuts[0].Length)))
		case small && !slices.ContainsFunc(p.Cuts, func(c membrane.Crosscut) bool { return len(c.Places) > 1 }):
			d := cutDiagram{number: i + 1, pack: p, stock: m.Stock, fig: f}
			out = append(out, setting.List{Head: d.head(), Paras: []string{d.order() + "."}})
		default:
			out = append(out, cutDiagram{number: i + 1, pack: p, stock: m.Stock, fig: f, long: long, mine: mine})
		}
	}
	if len(ones.Rows) > 0 {
		out = append([]setting.Block{ones}, out...)
	}
	return out
}

func cutsAny(c membrane.Crosscut, mine map[int]bool) bool {
	for _, pl := range c.Places {
		if mine[pl.Piece] {
			return true
		}
	}
	return false
}

// used is the length cut off a roll.
func used(p membrane.Pack) float64 {
	most := 0.0
	for _, c := range p.Cuts {
		most = max(most, c.At+c.Length)
	}
	return most
}

func (d cutDiagram) scale(w float64) float64 { return w / d.long }

func (d cutDiagram) head() string {
	if d.stock.Sheets {
		return d.fig.Textf("Sheet %d, how it is cut", d.number)
	}
	return d.fig.Textf("Roll %d, how it is cut", d.number)
}

// order says what is cut in turn and where, measured from the start: for the
// knife, and for the pieces too small to carry a number.
func (d cutDiagram) order() string {
	var cuts []string
	for _, c := range d.pack.Cuts {
		var names []string
		for _, pl := range c.Places {
			names = append(names, "M"+strconv.Itoa(pl.Piece))
		}
		cuts = append(cuts, floorplan.UnbrokenWords(d.fig.Textf("%s to %s", strings.Join(names, " + "),
			d.fig.Length(c.At+c.Length))))
	}
	return d.fig.Textf("From the start: %s; %s", strings.Join(cuts, ", "),
		floorplan.UnbrokenWords(d.fig.Textf("left over: %s", d.fig.Length(d.pack.Left))))
}

// high is the height of the roll as drawn: not to scale, and high enough
// for the numbers of narrow pieces.
func (d cutDiagram) high(w float64) float64 { return min(24, max(12, d.stock.Width*d.scale(w))) }

// Height is what the strip with its cuts takes at a width of w, both mm of paper.
func (d cutDiagram) Height(ty *setting.Typesetter, w float64) float64 {
	lines := ty.Lines(fonts.Lettering, ty.Both(d.order()), setting.Note, w)
	return ty.HeadingHeight(d.head(), w) + d.high(w) + float64(lines)*setting.Leading + 2
}

// Set draws the roll from its start, each crosscut with its pieces. Pieces of
// other rooms are drawn without their numbers being in bold.
func (d cutDiagram) Set(pg *setting.Page, at drawing.Pt, w float64) {
	y := at.Y + setting.SetHeading(pg, at, d.head(), w)
	k := d.scale(w)
	ky := d.high(w) / d.stock.Width
	end := used(d.pack)
	if d.stock.Sheets {
		end = d.stock.Length
	}
	roll := drawing.Box{X0: at.X, Y0: y, X1: at.X + end*k, Y1: y + d.high(w)}
	pg.Path(drawing.LayerMembrane, "roll "+strconv.Itoa(d.number), drawing.Rectangle(roll), drawing.MediumLine(), nil)
	for _, c := range d.pack.Cuts {
		x := at.X + c.At*k
		pg.Path(drawing.LayerMembrane, "cut", drawing.Polyline(drawing.Pt{X: x + c.Length*k, Y: roll.Y0},
			drawing.Pt{X: x + c.Length*k, Y: roll.Y1}), drawing.MediumLine(), nil)
		for _, pl := range c.Places {
			b := drawing.Box{X0: x, Y0: y + pl.At*ky, X1: x + pl.Length*k, Y1: y + (pl.At+pl.Width)*ky}
			pg.Path(drawing.LayerMembrane, "", drawing.Rectangle(b), drawing.ThinLine(), nil)
			d.name(pg, b, pl.Piece)
		}
	}
	for i, l := range pg.Ty.Wrap(pg.Ty.Both(d.order()), w) {
		pg.Write(drawing.Pt{X: at.X, Y: roll.Y1 + 3.8 + float64(i)*setting.Leading}, l, setting.Note, drawing.Start)
	}
}

// name writes a piece's number where it has room.
func (d cutDiagram) name(pg *setting.Page, b drawing.Box, piece int) {
	t := &drawing.Text{Layer: drawing.LayerText, Text: "M" + strconv.Itoa(piece), Height: setting.Note,
		Anchor: drawing.Middle}
	if d.mine[piece] {
		t.Face = fonts.LetteringBold
	}
	t.At = lettering.CentredOn(b.Centre(), (&drawing.Text{Text: t.Text, Height: setting.Note, Face: t.Face,
		Anchor: drawing.Middle}).Box())
	if b.Contains(t.Box().Grow(0.4)) {
		pg.Add(t)
	}
}
