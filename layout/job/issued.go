package job

import (
	"encoding/json"
	"fmt"
	"strings"

	"oxturn/layout/plancode"
	"oxturn/layout/plane"
)

// An Issued is one cable of a plan as it was issued: the layout file keeps it,
// for the same job may be worked out otherwise later.
type Issued struct {
	File             string
	Code             string // the plan's name
	Path             []plane.Point
	ColdLead, Return []plane.Point
	Sensor, Spare    LaidSensor
	Pegs             *IssuedPegs // nil: the file does not say how the pegs lie
}

// IssuedPegs is the grid of pegs of an issued plan.
type IssuedPegs struct {
	Origin plane.Point
	Angle  float64 // of the rows, radians counter-clockwise from east
}

// issuedFile is as much of a layout file as is read back.
type issuedFile struct {
	Schema int          `json:"schema"`
	Status string       `json:"status"`
	Code   string       `json:"plan_code"`
	Rooms  []issuedRoom `json:"rooms"`
}

type issuedRoom struct {
	Name    string `json:"name"`
	Lattice *struct {
		Origin [2]float64 `json:"origin"`
		Angle  float64    `json:"angle_deg"`
		Pitch  float64    `json:"pitch_mm"`
		Across float64    `json:"pitch_across_mm"`
	} `json:"lattice"`
	Cables  []issuedCable `json:"cables"`
	Sensors []struct {
		Name  string       `json:"name"`
		Spare bool         `json:"spare"`
		Tip   [2]float64   `json:"tip"`
		Lead  [][2]float64 `json:"lead"`
	} `json:"sensors"`
}

type issuedCable struct {
	ID       string       `json:"id"`
	Label    string       `json:"catalogue"`
	Length   float64      `json:"length_mm"`
	Path     [][2]float64 `json:"path"`
	ColdLead [][2]float64 `json:"cold_lead"`
	Return   [][2]float64 `json:"return_lead"`
	Zone     int          `json:"zone"`
	Spacing  float64      `json:"spacing_mm"`
	Score    IssuedScore  `json:"score"`
	AsLaid   *struct {
		Whole   bool         `json:"whole"`
		Planned [][2]float64 `json:"planned"`
	} `json:"as_laid"`
}

// issuedSchema is the newest version of the layout file that is understood.
const issuedSchema = 1

// readIssued reads the cable of a table from the layout file it names; nil
// where it names none, or where that was reported.
func (j *Job) readIssued(t table, a *Laid, open func(string) ([]byte, error)) *Issued {
	if !t.readable("plan") || !NamesFile(t.text("plan")) {
		return nil
	}
	room := j.Rooms[a.Room].Name
	is, err := openIssued(t.text("plan"), room, a.Cable, open)
	if err != nil {
		t.errorf("plan", "name the layout file, NAME.layout.json, that draw wrote with the drawings on site",
			"plan %q: %v", t.text("plan"), err)
		t.spoil()
		return nil
	}
	for _, p := range is.Path {
		if !j.Rooms[a.Room].laidInside(t, fmt.Sprintf("plan %q: cable at %s", t.text("plan"), t.rd.place(p)),
			t.at("plan"), p) {
			return nil
		}
	}
	return is
}

// NamesFile tells the name of a layout file from a plan code.
func NamesFile(plan string) bool { return strings.ContainsAny(plan, `./\`) }

// RestOn makes a record rest on the plan that a person names outside of the job
// file: by its code, or by its layout file.
func (j *Job) RestOn(a *Laid, plan string, open func(string) ([]byte, error)) error {
	if !NamesFile(plan) {
		code, err := plancode.Parse(plan)
		a.PlanCode, a.Issued = code, nil
		return err
	}
	is, err := openIssued(plan, j.Rooms[a.Room].Name, a.Cable, open)
	if err != nil {
		return fmt.Errorf("plan %q: %w", plan, err)
	}
	a.PlanCode, a.Issued = is.Code, is
	return nil
}

// readPlanCode reads the code of a table's plan; empty where it names none, or a
// file, or where that was reported.
func readPlanCode(t table) string {
	if !t.readable("plan") || NamesFile(t.text("plan")) {
		return ""
	}
	code, err := plancode.Parse(t.text("plan"))
	if err != nil {
		t.errorf("plan", "read it once more off the drawing's title block, or name the layout file, "+
			"NAME.layout.json, of the plan on site", "plan: %v", err)
		t.spoil()
	}
	return code
}

func openIssued(name, room, cable string, open func(string) ([]byte, error)) (*Issued, error) {
	f, err := openFile(name, open)
	if err != nil {
		return nil, err
	}
	return f.find(name, room, cable)
}

// largerIssued times as large as a job may be a layout file, which has the path of every cable.
const largerIssued = 8

func openFile(name string, open func(string) ([]byte, error)) (*issuedFile, error) {
	if open == nil {
		return nil, fmt.Errorf("it cannot be read here")
	}
	data, err := open(name)
	if err != nil {
		return nil, reason(err)
	}
	var f issuedFile
	if len(data) > largerIssued*maxFile {
		return nil, fmt.Errorf("the file has %d bytes, which no layout file has", len(data))
	}
	if err := json.Unmarshal(data, &f); err != nil {
		return nil, fmt.Errorf("this is no layout file: %w", err)
	}
	switch {
	case f.Schema > issuedSchema:
		return nil, fmt.Errorf("this layout file is of schema %d, and this version reads schema %d and older: take a "+
			"newer oxturn", f.Schema, issuedSchema)
	case f.Schema < 1:
		return nil, fmt.Errorf("this is no layout file: its schema is %d", f.Schema)
	}
	return &f, f.named()
}

// named settles the file's plan code. One whose paths are no longer those of its
// code was changed by hand; a record as laid has the code of its plan and other
// paths.
func (f *issuedFile) named() error {
	var rooms []plancode.Room
	for _, r := range f.Rooms {
		rooms = append(rooms, r.named())
	}
	if f.Code == "" {
		f.Code = plancode.Of(rooms)
	}
	if made := plancode.Of(rooms); made != f.Code && f.Status != AsLaid.String() {
		return fmt.Errorf("it bears the plan code %s, but what is in it is another plan: it was changed after it was "+
			"written", f.Code)
	}
	return nil
}

func (r issuedRoom) named() plancode.Room {
	out := plancode.Room{Name: r.Name}
	if l := r.Lattice; l != nil {
		out.Origin, out.Angle, out.Pitch = plane.Pt(l.Origin[0], l.Origin[1]), l.Angle, l.Pitch
		out.Across = l.Across
	}
	for _, c := range r.Cables {
		out.Cables = append(out.Cables, plancode.Cable{ID: c.ID, Label: c.Label, Length: c.Length, Path: points(c.Path),
			ColdLead: points(c.ColdLead), Return: points(c.Return)})
	}
	for _, s := range r.Sensors {
		out.Sensors = append(out.Sensors, plancode.Sensor{Name: s.Name, Tip: plane.Pt(s.Tip[0], s.Tip[1]),
			Lead: points(s.Lead)})
	}
	return out
}

func (f *issuedFile) find(name, room, cable string) (*Issued, error) {
	for _, r := range f.Rooms {
		if r.Name != room {
			continue
		}
		for _, c := range r.Cables {
			if c.ID != cable && (cable != "" || len(r.Cables) != 1) {
				continue
			}
			if len(c.Path) < 2 {
				return nil, fmt.Errorf("cable %s has no path in it", c.ID)
			}
			is := &Issued{File: name, Code: f.Code, Path: points(c.Path), ColdLead: points(c.ColdLead),
				Return: points(c.Return)}
			if l := r.Lattice; l != nil {
				is.Pegs = &IssuedPegs{plane.Pt(l.Origin[0], l.Origin[1]), plane.Radians(l.Angle)}
			}
			for _, s := range r.Sensors {
				tip := plane.Pt(s.Tip[0], s.Tip[1])
				if s.Spare {
					is.Spare = LaidSensor{&tip, points(s.Lead)}
				} else {
					is.Sensor = LaidSensor{&tip, points(s.Lead)}
				}
			}
			return is, nil
		}
		if cable == "" {
			return nil, fmt.Errorf("room %q has %d cables in it; name one with cable", room, len(r.Cables))
		}
		return nil, fmt.Errorf("there is no cable %s in room %q", cable, room)
	}
	return nil, fmt.Errorf("there is no room %q in it", room)
}

func points(pairs [][2]float64) []plane.Point {
	var out []plane.Point
	for _, p := range pairs {
		out = append(out, plane.Pt(p[0], p[1]))
	}
	return out
}
