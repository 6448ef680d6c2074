package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"syscall/js"
	"time"

	"oxturn/drawing/sheets"
	"oxturn/drawing/svg"
	"oxturn/drawing/web/preview"
	"oxturn/layout"
	"oxturn/layout/arrange"
	"oxturn/layout/job"
	"oxturn/layout/job/edit"
	"oxturn/layout/language"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// main makes the command an engine for a page: it answers calls until the page is
// closed. Files are those of the file system that the page lends it.
//
//	oxturnCall(name, request JSON, done(error text or null, answer), part(JSON))
//
// A drawing gives part of its answer early. It lets other calls have their turn, and ends when
// another begins or "drop" is called. For that it has the page come back to it:
//
//	oxturnBreathe(back())
func main() {
	spendMemory()
	e := &engine{}
	call := js.FuncOf(func(_ js.Value, args []js.Value) any {
		name, request, done, part := args[0].String(), args[1].String(), args[2], args[3]
		go func() { // a file is waited for, which the page's own thread may not
			answer, err := e.answer(name, []byte(request), func(early string) { part.Invoke(early) })
			if err != nil {
				done.Invoke(err.Error(), "")
				return
			}
			done.Invoke(nil, answer)
		}()
		return nil
	})
	js.Global().Set("oxturnCall", call)
	js.Global().Call("oxturnReady")
	select {}
}

// An engine holds the job that the page shows.
type engine struct {
	shown    *work
	laid     *layout.Plan // the newest plan: that of the job shown, or of one still being drawn
	drop     func()       // ends the drawing under way; nil: there was none
	breathed time.Time    // when others had a turn last
}

// A request is what any call may say; each reads what is its own.
type request struct {
	Args     []string      `json:"args"`     // run: a command line, without the command
	In       string        `json:"in"`       // run: the standard input
	Name     string        `json:"name"`     // open: the job file
	Language string        `json:"language"` // open: what problems are told in
	ID       string        `json:"id"`       // sheet; open: the one that is looked at
	Text     string        `json:"text"`     // tables and edit: a job file
	Changes  []edit.Change `json:"changes"`  // edit
	Walls    []string      `json:"walls"`    // tape
	Units    string        `json:"units"`    // tape: "mm" or "in"

	To        string   `json:"to"`        // photo and copy: where the copy goes
	Keep      bool     `json:"keep"`      // copy: where on earth it was taken
	Room      string   `json:"room"`      // place
	Distances []string `json:"distances"` // place, off the two walls

	Move arrange.Move     `json:"move"`
	New  arrange.Addition `json:"new"` // stand
}

func (e *engine) answer(name string, body []byte, part func(string)) (answer string, err error) {
	defer func() {
		if p := recover(); p != nil {
			err = fmt.Errorf("this is a fault in oxturn, not in your job: %v", p)
		}
	}()
	var r request
	if err := json.Unmarshal(body, &r); err != nil {
		return "", err
	}
	switch name {
	case "run":
		return asText(e.run(r))
	case "open":
		return e.open(r, part)
	case "warm":
		return "", e.warm()
	case "drop":
		e.dropDrawing()
		return "", nil
	case "sheet":
		return e.sheet(r)
	case "tables":
		tables, err := edit.Tables(r.Text)
		if err != nil {
			return "", err
		}
		return asText(tables)
	case "edit":
		return edit.Apply(r.Text, r.Changes)
	case "literal":
		return edit.Literal(r.Text), nil
	case "tape":
		return tape(r)
	case "fresh":
		e.dropDrawing()
		e.shown, e.laid = nil, nil
		return "", nil
	case "photo":
		return takePhoto(r)
	case "copy":
		return copyPhoto(r)
	case "photos":
		return e.photos(r)
	case "place":
		return e.placed(r)
	case "arrange":
		return e.arrangement(r)
	case "move":
		return moved(r)
	case "stand":
		return added(r)
	case "keys":
		return asText(formKeys())
	}
	return "", fmt.Errorf("there is no call %q", name)
}

func asText(v any) (string, error) {
	out, err := json.Marshal(v)
	return string(out), err
}

// A ran is what a command line gave.
type ran struct {
	Code int    `json:"code"`
	Out  string `json:"out"`
	Err  string `json:"err"`
}

func (e *engine) run(r request) ran {
	var out, err bytes.Buffer
	code := Run(context.Background(), r.Args, strings.NewReader(r.In), &out, &err)
	return ran{code, out.String(), err.String()}
}

// longestWait is how long a page waits for one job.
const longestWait = 10 * time.Minute

// dropDrawing ends the drawing under way.
func (e *engine) dropDrawing() {
	if e.drop != nil {
		e.drop()
	}
}

// warm draws a floor that nobody looks at, while nobody waits: a browser compiles what it runs, so
// that the first drawing takes some four times as long as those after it. The first that is asked for ends it.
func (e *engine) warm() error {
	if e.drop != nil {
		return nil // something was drawn
	}
	ctx, drop := context.WithCancel(context.Background())
	defer drop()
	e.drop = drop
	const kind = "bath"
	w, err := do(ctx, source{name: kind + ".toml", base: kind, data: starter(kind, plane.Millimetres.String())},
		workOptions{timeLimit: longestWait, breathe: e.breathe, early: func(*layout.Plan) {}})
	if ctx.Err() != nil {
		return nil
	}
	if err != nil {
		return err
	}
	for _, s := range w.sheets {
		if err := svg.Write(io.Discard, s); err != nil {
			return err
		}
	}
	_, err = pageWords(w)
	return err
}

// aTurn is for how long a drawing keeps others waiting.
const aTurn = 40 * time.Millisecond

// breathe lets the page's other calls have a turn: there is one thread.
func (e *engine) breathe() {
	if time.Since(e.breathed) < aTurn {
		return
	}
	back := make(chan struct{})
	f := js.FuncOf(func(js.Value, []js.Value) any { close(back); return nil })
	js.Global().Call("oxturnBreathe", f)
	<-back
	f.Release()
	e.breathed = time.Now()
}

// open reads, plans and draws a job, and tells all about it but the drawings; of the sheet that is
// looked at it gives the drawing early. The answer is null where the drawing was dropped.
func (e *engine) open(r request, part func(string)) (string, error) {
	e.dropDrawing()
	ctx, drop := context.WithCancel(context.Background())
	defer drop()
	e.drop = drop
	data, err := os.ReadFile(r.Name)
	if err != nil {
		return "", err
	}
	w, err := do(ctx, source{name: r.Name, base: baseName(r.Name), data: data, open: opener(r.Name)},
		workOptions{timeLimit: longestWait, before: e.before(), breathe: e.breathe, early: func(p *layout.Plan) {
			e.laid = p
			e.early(p, r.ID, part)
		}})
	if ctx.Err() != nil {
		return "null", nil
	}
	if err != nil {
		return "", err
	}
	if w.plan != nil {
		e.shown, e.laid = w, w.plan
	}
	st, err := pageWords(w)
	if err != nil {
		return "", err
	}
	st.Job = filepath.Base(r.Name)
	tell(&st, r.Language, w.report)
	return asText(st)
}

// An earlySheet is the sheet that is looked at, before the rest is drawn.
type earlySheet struct {
	ID     string          `json:"id"`
	Ratio  float64         `json:"ratio"`
	SVG    string          `json:"svg"`
	Cables []preview.Cable `json:"cables"`
	Units  string          `json:"units"`
}

// early gives the sheet that is looked at as soon as it can be drawn. What cannot, the whole set
// tells of.
func (e *engine) early(p *layout.Plan, id string, part func(string)) {
	var out struct {
		Sheet *earlySheet `json:"sheet,omitempty"` // none: the plan alone is there
	}
	if s, err := sheets.Alone(p, id, e.numbering()); s != nil && err == nil {
		var b bytes.Buffer
		if svg.Write(&b, s) == nil {
			out.Sheet = &earlySheet{s.ID, s.Ratio, b.String(), pageCables(p), p.Job.Units.String()}
		}
	}
	if text, err := asText(out); err == nil {
		part(text)
	}
}

// numbering is that of the sheets shown.
func (e *engine) numbering() (n sheets.Numbering) {
	if e.shown != nil {
		n = e.shown.number
	}
	return n
}

// tell says problems in a language too, of which the page knows by their English words.
func tell(st *preview.State, tag string, report *job.Report) {
	report.Language, _ = language.Named(tag)
	if report.Language == language.English {
		return
	}
	l := report.Teller()
	for i := range st.Problems {
		p := &st.Problems[i]
		p.Told, p.ToldHint = l.Retold(p.Message), l.Retold(p.Hint)
		for k, note := range p.Notes {
			p.Notes[k] = l.Retold(note)
		}
	}
}

// before is the job as it is shown, nil for none.
func (e *engine) before() *job.Job {
	if e.shown == nil {
		return nil
	}
	return e.shown.job
}

// sheet draws one of the job's sheets.
func (e *engine) sheet(r request) (string, error) {
	if e.shown == nil {
		return "", errors.New("no job is drawn")
	}
	for _, s := range e.shown.sheets {
		if s.ID == r.ID {
			var b bytes.Buffer
			err := svg.Write(&b, s)
			return b.String(), err
		}
	}
	return "", fmt.Errorf("there is no sheet %q", r.ID)
}

// A formKey is what a form needs to know of a key.
type formKey struct {
	Path, Type, Doc, Default, Example string
	Values                            []string
	Required                          bool
}

func formKeys() []formKey {
	var out []formKey
	for _, k := range job.Keys() {
		out = append(out, formKey{k.Path, string(k.Type), k.Doc, k.Default, k.Example, k.Values, k.Required &&
			k.Unless == ""})
	}
	return out
}

// tape tells how far a room's walls come round as they are being measured.
func tape(r request) (string, error) {
	units := plane.Millimetres
	if r.Units == plane.Inches.String() {
		units = plane.Inches
	}
	t := job.TapeOf(r.Walls, units)
	miss := say.Figures{Units: units}.Length(t.Miss)
	if units == plane.Millimetres {
		miss += " mm"
	}
	return asText(struct {
		job.Tape
		Says string // the miss as a person reads it
	}{t, miss})
}
