package passport

import (
	"bytes"
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"oxturn/layout/circuit"
	"oxturn/layout/job"
	"oxturn/layout/pattern"
	"oxturn/layout/plane"
)

// Is reports whether data begins as the text of a code does.
func Is(data []byte) bool {
	return bytes.HasPrefix(bytes.TrimLeft(data, "\uFEFF \t\r\n"), []byte("OXTURN FLOOR "))
}

// A Passport is a text read back.
type Passport struct {
	Room, Code, Cable, Label string
	Evidence                 job.Evidence
	Error, Finger            float64 // mm
	Date                     string  // "2026-11-28"; empty: not said
	Volts, Watts             float64
	Ohms, OhmsLow, OhmsHigh  float64
	ReadOhms, ReadFarads     float64 // Ω and nF; 0: not read
	Length, Lead             float64
	Ends                     int
	Units                    string // of answers
	Walls                    []Corner
	Box                      plane.Point
	BoxUp                    float64
	Start, End               plane.Point
	Sensors                  []job.IssuedSensor
	Bend, Pitch              float64
	ColdLead, Return, Path   []plane.Point
}

// A Corner is where a wall begins.
type Corner struct {
	Letter string
	At     plane.Point
}

// Read reads a text. The error says what of it is missing or was misread.
func Read(data []byte) (*Passport, error) {
	text := strings.TrimSpace(strings.TrimPrefix(string(data), "\uFEFF"))
	rows := strings.Split(text, "\n")
	if v, err := strconv.Atoi(strings.TrimSpace(strings.TrimPrefix(rows[0], "OXTURN FLOOR "))); err != nil || v < 1 {
		return nil, errors.New(`its first line is not "OXTURN FLOOR" and a figure`)
	} else if v > Version {
		return nil, fmt.Errorf("this label is of form %d, and this version reads form %d and older: take a newer "+
			"oxturn", v, Version)
	}
	body, said, found := strings.Cut(text, "\n"+checkWord)
	if !found {
		return nil, errors.New(`the text is not whole: its last line, "check" and four letters, is missing`)
	}
	if want := checkOf(body); !strings.EqualFold(strings.TrimSpace(said), want) {
		return nil, fmt.Errorf("the text was misread: its check is %s, and what is in it has %s",
			strings.TrimSpace(said), want)
	}
	p := &Passport{}
	for i, row := range strings.Split(body, "\n") {
		if err := p.row(strings.TrimSpace(row)); err != nil {
			return nil, fmt.Errorf("line %d, %q: %w", i+1, strings.TrimSpace(row), err)
		}
	}
	return p, p.lacks()
}

// lacks names what the text does not say and no answer goes without.
func (p *Passport) lacks() error {
	switch {
	case p.Room == "" || p.Cable == "" || p.Label == "":
		return errors.New("it does not say of which room and cable it is")
	case p.Volts <= 0 || p.Watts <= 0 || p.Ohms <= 0 || p.Length <= 0:
		return errors.New("the label's figures are not in it")
	case p.Ends < 1 || p.Ends > len(circuit.EndWords()):
		return errors.New("it does not say which ends of the cable are cold")
	case len(p.Walls) < 3:
		return errors.New("the room's walls are not in it")
	case len(p.Path) < 2:
		return errors.New("the cable's path is not in it, as it was too long for a code: take the drawing or its PDF")
	}
	return nil
}

// row reads one line by its first word.
func (p *Passport) row(row string) (err error) {
	word, rest, _ := strings.Cut(row, " ")
	s := &words{strings.Fields(rest), nil}
	switch {
	case word == "room":
		p.Room = rest
	case word == "plan":
		p.Code = rest
	case word == "record":
		return p.record(rest)
	case word == "cable":
		p.Cable, p.Label, _ = strings.Cut(rest, " ")
	case strings.Contains(row, " V ") && strings.Contains(row, " ohm, "):
		_, err = fmt.Sscanf(row, "%f V %f W %f ohm, %f to %f", &p.Volts, &p.Watts, &p.Ohms, &p.OhmsLow, &p.OhmsHigh)
	case word == "length":
		_, err = fmt.Sscanf(row, "length %f lead %f ends %d", &p.Length, &p.Lead, &p.Ends)
	case word == "read":
		p.read(s)
	case word == "mm,":
		p.Units = row[strings.LastIndexByte(row, ' ')+1:]
	case word == "walls":
		for len(s.all) > 0 && s.err == nil {
			p.Walls = append(p.Walls, Corner{s.word(), s.point()})
		}
	case word == "box":
		p.Box, _, p.BoxUp = s.point(), s.word(), s.number()
	case word == "START":
		p.Start = s.point()
	case word == "END":
		p.End = s.point()
	case word == "bend":
		_, err = fmt.Sscanf(row, "bend %f pegs %f", &p.Bend, &p.Pitch)
	case word == "lead":
		p.ColdLead = s.way()
	case word == "return":
		p.Return = s.way()
	case word == "path" && !strings.HasPrefix(rest, "left out"):
		p.Path = s.way()
	case sensorName().MatchString(word) && strings.HasPrefix(rest, "lead "):
		s.word()
		for i := range p.Sensors {
			if p.Sensors[i].Name == word {
				p.Sensors[i].Lead = s.way()
			}
		}
	case sensorName().MatchString(word):
		tip := s.point()
		p.Sensors = append(p.Sensors, job.IssuedSensor{Name: word, Spare: strings.HasSuffix(rest, " spare"),
			LaidSensor: job.LaidSensor{Tip: &tip}})
	}
	return errors.Join(err, s.err)
}

var sensorName = pattern.Of(`^S\d+$`)

// record reads how it was found where the cable lies.
func (p *Passport) record(rest string) error {
	if strings.HasPrefix(rest, "none") {
		return nil
	}
	how, figures, _ := strings.Cut(rest, ", +-")
	for _, e := range []job.Evidence{job.ByHand, job.PhotoWithTape} {
		if how == e.String() {
			p.Evidence = e
		}
	}
	f := strings.Fields(strings.NewReplacer(", keep", "", " more", "").Replace(figures))
	if p.Evidence == job.PlanOnly || len(f) < 2 {
		return errors.New("it does not say how the cable was found")
	}
	if len(f) > 2 {
		p.Date = f[2]
	}
	var err1, err2 error
	p.Error, err1 = strconv.ParseFloat(f[0], 64)
	p.Finger, err2 = strconv.ParseFloat(f[1], 64)
	return errors.Join(err1, err2)
}

func (p *Passport) read(s *words) {
	for len(s.all) > 0 && s.err == nil {
		v, unit := s.number(), s.word()
		if unit == "nF" {
			p.ReadFarads = v
		} else {
			p.ReadOhms = v
		}
	}
}

// words are what is left of a line, read one after the other up to the first that is
// not what it should be.
type words struct {
	all []string
	err error
}

func (s *words) word() string {
	if len(s.all) == 0 {
		s.err = errors.New("it ends too soon")
		return ""
	}
	w := s.all[0]
	s.all = s.all[1:]
	return w
}

func (s *words) number() float64 {
	w := s.word()
	v, err := strconv.ParseFloat(w, 64)
	if err != nil && s.err == nil || v > mostMM || v < -mostMM {
		s.err = fmt.Errorf("%q is no figure", w)
	}
	return v
}

// mostMM is beyond any floor.
const mostMM = 1e6

func (s *words) point() plane.Point {
	w := s.word()
	x, y, ok := strings.Cut(w, ",")
	a, err1 := strconv.Atoi(x)
	b, err2 := strconv.Atoi(y)
	if s.err == nil && (!ok || err1 != nil || err2 != nil || max(a, -a, b, -b) > mostMM) {
		s.err = fmt.Errorf("%q is no place", w)
	}
	return plane.Pt(float64(a), float64(b))
}

// sideLetters are the legs' directions.
var sideLetters = map[byte]plane.Point{'N': {Y: 1}, 'S': {Y: -1}, 'E': {X: 1}, 'W': {X: -1}}

func (s *words) way() []plane.Point {
	out := []plane.Point{s.point()}
	for len(s.all) > 0 && s.err == nil {
		side, ok := sideLetters[s.all[0][0]]
		if !ok {
			out = append(out, s.point())
			continue
		}
		w := s.word()
		n, err := strconv.Atoi(w[1:])
		if err != nil || n < 0 || n > mostMM {
			s.err = fmt.Errorf("%q is no leg", w)
		}
		out = append(out, out[len(out)-1].Add(side.Mul(float64(n))))
	}
	return out
}

// usualGap is the widest gap in mm that a job is not warned of.
const usualGap = 500

// Job writes the passport as a job file. With it goes LayBy: the job says nothing of
// how the cable would be planned.
func (p *Passport) Job() []byte {
	var b bytes.Buffer
	line := func(format string, args ...any) { fmt.Fprintf(&b, format+"\n", args...) }
	status := "for installation"
	if p.Evidence != job.PlanOnly {
		status = "as laid"
	}
	line("units = \"mm\"\n[job]\ntitle = %s\nstatus = %q\n", job.Quoted(p.Room), status)
	line("[membrane]\npitch = %v\nbend_radius = %v\n[sheet]\nunits = %q\n", p.Pitch, p.Bend, p.Units)
	closest := max(1, math.Ceil(2*p.Bend/p.Pitch-1e-6)) // what its bends need; nothing is planned by it
	line("[spacing]\nclosest = %v\nwidest = %v\n", closest, max(closest, math.Floor(usualGap/p.Pitch)))
	line("[clearance]\nwall = 0\n")
	line("[[cable]]\nid = %s\nvolts = %v\nwatts = %v\nlength = %v\nohms = %v\ntolerance = [%.6f, %.6f]",
		job.Quoted(p.Label), p.Volts, p.Watts, p.Length, p.Ohms, p.OhmsLow/p.Ohms-1, p.OhmsHigh/p.Ohms-1)
	line("tolerance_from = \"label\"\nlead = %v\nends = %q\n", p.Lead, circuit.Ends(p.Ends-1))
	line("[[room]]\nname = %s\ncables = [%s]", job.Quoted(p.Room), job.Quoted(p.Label))
	var corners []plane.Point
	for _, c := range p.Walls {
		corners = append(corners, c.At)
	}
	line("corners = %s\n[room.thermostat]\nat = %s\nheight = %v\n", pairs(corners), pair(p.Box),
		max(p.BoxUp, 1))
	if p.Evidence != job.PlanOnly {
		p.laid(line)
	}
	return b.Bytes()
}

// laid writes the record.
func (p *Passport) laid(line func(string, ...any)) {
	line("[[as_laid]]\nroom = %s\ncable = %s\nevidence = %q\nerror = %v\nfinger_room = %v\nplan = %s",
		job.Quoted(p.Room),
		job.Quoted(p.Cable), p.Evidence.String(), p.Error, p.Finger, job.Quoted(p.Code))
	line("corners = %s\njoint = %s\nend_cap = %s", pairs(p.Path), pair(p.Start),
		pair(p.End))
	if p.Date != "" {
		line("date = %s", p.Date)
	}
	if len(p.ColdLead) > 1 {
		line("cold_lead = %s", pairs(p.ColdLead))
	}
	if len(p.Return) > 1 {
		line("return_lead = %s", pairs(p.Return))
	}
	for _, s := range p.Sensors {
		name := "sensor"
		if s.Spare {
			name = "spare"
		}
		line("%s = %s", name, pair(*s.Tip))
		if len(s.Lead) > 1 {
			line("%s_lead = %s", name, pairs(s.Lead))
		}
	}
	if p.ReadOhms > 0 || p.ReadFarads > 0 {
		line("[[as_laid.reading]]\nstage = \"hook-up\"")
		if p.ReadOhms > 0 {
			line("ohms = %v", p.ReadOhms)
		}
		if p.ReadFarads > 0 {
			line("capacitance = %v", p.ReadFarads)
		}
		line("[[allow]]\nid = \"W114\"\nreason = \"a label has the last reading alone, and nothing of the stages " +
			"before it\"")
	}
}

// LayBy makes the job of a passport be laid as the passport says.
func (p *Passport) LayBy(j *job.Job) error {
	r := job.IssuedRoom{Name: p.Room, Sensors: p.Sensors, Pegs: job.IssuedPegs{Origin: p.Path[0]},
		Cables: []job.IssuedCable{{ID: p.Cable, Label: p.Label, Path: p.Path, ColdLead: p.ColdLead, Return: p.Return}}}
	j.LaidBy = &job.IssuedPlan{File: "the label's code", Code: p.Code, Rooms: []job.IssuedRoom{r}}
	return nil
}

// pairs writes points as TOML.
func pairs(pts []plane.Point) string {
	var out []string
	for _, p := range pts {
		out = append(out, pair(p))
	}
	return "[" + strings.Join(out, ", ") + "]"
}

func pair(p plane.Point) string { return fmt.Sprintf("[%.0f, %.0f]", p.X, p.Y) }
