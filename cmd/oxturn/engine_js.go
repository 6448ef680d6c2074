package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall/js"
	"time"

	"oxturn/drawing/svg"
	"oxturn/drawing/web/preview"
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
//	oxturnCall(name, request JSON, done(error text or null, answer))
func main() {
	spendMemory()
	e := &engine{}
	call := js.FuncOf(func(_ js.Value, args []js.Value) any {
		name, request, done := args[0].String(), args[1].String(), args[2]
		go func() { // a file is waited for, which the page's own thread may not
			answer, err := e.answer(name, []byte(request))
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
type engine struct{ shown *work }

// A request is what any call may say; each reads what is its own.
type request struct {
	Args     []string      `json:"args"`     // run: a command line, without the command
	In       string        `json:"in"`       // run: the standard input
	Name     string        `json:"name"`     // open: the job file
	Language string        `json:"language"` // open: what problems are told in
	ID       string        `json:"id"`       // sheet
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

func (e *engine) answer(name string, body []byte) (answer string, err error) {
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
		return e.open(r)
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
		e.shown = nil
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

// open reads, plans and draws a job, and tells all about it but the drawings.
func (e *engine) open(r request) (string, error) {
	data, err := os.ReadFile(r.Name)
	if err != nil {
		return "", err
	}
	w, err := do(context.Background(), source{name: r.Name, base: baseName(r.Name), data: data,
		open: opener(r.Name)}, workOptions{timeLimit: longestWait, before: e.before()})
	if err != nil {
		return "", err
	}
	if w.plan != nil {
		e.shown = w
	}
	st, err := pageWords(w)
	if err != nil {
		return "", err
	}
	st.Job = filepath.Base(r.Name)
	tell(&st, r.Language, w.report)
	return asText(st)
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
		out = append(out, formKey{k.Path, string(k.Type), k.Doc, k.Default, k.Example, k.Values, k.Required})
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
