// Package ownersmap writes the map that stays with the house as one page: a
// file that needs no network and no other file, for a phone or a desk, on
// which any spot can be touched for what lies there.
//
// The page decides with the same table and the same steps as package probe;
// a test in a browser holds the two together.
package ownersmap

import (
	"crypto/sha256"
	_ "embed" // the page's own parts
	"encoding/base64"
	"html/template"
	"io"
	"strconv"

	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/pattern"
	"oxturn/layout/probe"
)

//go:embed page.html
var pageText string

//go:embed style.css
var styleText string

//go:embed words.js
var wordsText string

//go:embed record.js
var recordText string

//go:embed fault.js
var faultText string

//go:embed script.js
var mapText string

//go:embed faultform.html
var faultFormText string

// script is the page's one: what it says, what package record does with readings, what package
// probe makes of that on the floor and the form for it, then the map itself.
func script() string { return wordsText + recordText + faultText + mapText }

// page is what the template is filled with.
type page struct {
	Lang     string            // the reader's language (BCP 47)
	Words    map[string]string // what the script says in it, by the English message; none in English
	Title    string
	Lines    []string // client, site, contractor, date
	Number   string
	Revision string
	Code     string // the plan's
	Status   string
	Recorded bool // recorded as laid in every room
	Rooms    []room
	Living   []string // how to live with the floor
	Data     []table
	Style    template.CSS
	Script   template.JS
	Policy   string // what the page may load: itself
}

// room is what is drawn of one room.
type room struct {
	Index    int
	Name     string
	Record   string
	Further  []string // what was never tested, and what the room loses
	Counting string
	NoTiles  string // why nothing is said by tile
	Cautions []string
	Picture  template.HTML
	Key      []signed
	Moved    []string // what does not lie as planned
	Places   []place
	Datum1   string
	Datum2   string
	Cables   []cableKept
	Photos   []photoShown
}

// photoShown is a photo that can be laid under the map's lines.
type photoShown struct {
	Index int
	Name  string
	Words string
}

// place is a point of the floor found again from two walls, for a reader
// without a script.
type place struct{ Name, From1, From2 string }

// Write writes the map of a whole plan. The plan must be one that build.Plan
// has no errors for.
func Write(w io.Writer, p *layout.Plan) error {
	l := p.Job.Language
	say := func(message string, values ...any) string { return language.Say(message, values...).In(l) }
	t, err := template.New("map").Funcs(template.FuncMap{"say": say}).Parse(pageText)
	if err != nil {
		return err
	}
	if _, err := t.New("fault").Parse(faultFormText); err != nil {
		return err
	}
	info := p.Job.Info
	pg := page{Lang: l.Tag(), Words: words(l), Title: info.Title, Number: info.Number, Code: p.Code,
		Status:   l.Text(info.Status.String()),
		Recorded: info.Status == job.AsLaid,
		Style:    template.CSS(styleText), Script: template.JS(script()), Policy: policy(), Living: probe.Living(
			p.Job.Region(), info.Status, l)}
	for _, s := range []string{info.Client, info.Site, info.Contractor} {
		if s != "" {
			pg.Lines = append(pg.Lines, s)
		}
	}
	if !info.Date.IsZero() {
		pg.Lines = append(pg.Lines, info.Date.Format("2006-01-02"))
	}
	if n := len(p.Job.Revisions); n > 0 {
		pg.Revision = p.Job.Revisions[n-1].Letter
	}
	for i := range p.Rooms {
		m := probe.In(p, &p.Rooms[i], l)
		pg.Recorded = pg.Recorded && m.NoReason == ""
		var moved []string
		for _, d := range m.Differ {
			moved = append(moved, m.Moved(d))
		}
		photos := p.PhotosOf(&p.Rooms[i])
		drawn, key, err := picture(i, &p.Rooms[i], m, photos)
		if err != nil {
			return err
		}
		pg.Rooms = append(pg.Rooms, room{Moved: moved, Index: i, Name: m.Room, Record: m.Record(),
			Further: further(p, &p.Rooms[i]), Counting: m.Counting(), NoTiles: m.NoTiles, Cautions: m.Cautions(),
			Picture: drawn, Key: key, Places: places(m),
			Datum1: datumName(m, 0), Datum2: datumName(m, 1), Cables: cablesKept(p, &p.Rooms[i]), Photos: photosShown(p,
				&p.Rooms[i], photos)})
		pg.Data = append(pg.Data, tableOf(p, &p.Rooms[i], m))
	}
	return t.Execute(w, pg)
}

// sayings finds what the script says: the message that say is given.
var sayings = pattern.Of(`\bsay\(("(?:[^"\\]|\\.)*")`)

// words are what the script says, in a language.
func words(l language.Language) map[string]string {
	out := map[string]string{}
	if l == language.English {
		return out
	}
	for _, m := range sayings().FindAllStringSubmatch(script(), -1) {
		if message, err := strconv.Unquote(m[1]); err == nil {
			out[message] = l.Text(message)
		}
	}
	return out
}

// further is what is to be said of a room beside its map.
func further(p *layout.Plan, r *layout.Room) []string {
	out := probe.Untested(r, p.Job.Language)
	if heat := p.LossWords(r, p.Job.Language); heat != "" {
		out = append(out, heat)
	}
	return out
}

// policy lets the page run and style itself by its own two blocks and nothing
// else: no text of a job can become code, and nothing is fetched.
func policy() string {
	return "default-src 'none'; img-src data:; style-src '" + hash(styleText) + "'; script-src '" + hash(script()) +
		"'; base-uri 'none'; form-action 'none'"
}

func hash(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "sha256-" + base64.StdEncoding.EncodeToString(sum[:])
}
