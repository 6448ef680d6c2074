package job

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"time"

	"oxturn/layout/plancode"
	"oxturn/layout/plane"
)

// Evidence is how it was found out where a cable lies.
type Evidence int

// The classes of evidence, weakest first. Nothing can be said about a spot on
// the floor from a plan only.
const (
	PlanOnly Evidence = iota
	ByHand
	PhotoWithTape
)

// String returns the evidence as the job file spells it.
func (e Evidence) String() string { return evidenceNames()[e] }

func evidenceNames() []string {
	return []string{"plan only", "measured by hand", "photo with tape"}
}

// A Laid is what a job file says of one cable as it really lies. Points are
// on the floor, in mm; a nil pointer or an empty line was not measured.
type Laid struct {
	Room       int    // index into Job.Rooms
	Cable      string // "H1"; empty: the room's only cable
	Evidence   Evidence
	Date       time.Time
	By         string
	Error      float64 // mm; 0: by the evidence
	FingerRoom float64 // mm; negative: by the evidence
	PlanCode   string  // of the plan it was laid from; empty: not said
	Issued     *Issued // that plan; nil: this job's own
	AsPlanned  bool    // all was held against Issued and lies as drawn
	Corners    []plane.Point
	Start      *plane.Point
	Legs       []Leg
	Runs       int // laid so far, as planned; 0: not said
	Miscounts  []Miscount
	FirstPeg   *plane.Point
	Marks      []LaidMark
	Joint      *plane.Point
	EndCap     *plane.Point
	ColdLead   []plane.Point
	Return     []plane.Point
	Sensor     LaidSensor
	Spare      LaidSensor
	Readings   []Reading
	Lot        string  // on the cable's label; empty: not written down, as those below
	Tester     string  // of its insulation
	Volts      float64 // at hook-up, the floor on; 0: not written down
	Amps       float64 // likewise
	TripTest   string
	Lead       float64 // mm of one cold lead as cut
	Photos     []Photo
	Span       Span
	Spans      Spans
}

// A Leg is one straight leg of cable, counted in pegs.
type Leg struct {
	Bearing float64 // degrees clockwise from north, a multiple of 45
	Pegs    int
}

// A Miscount is a laid run of the plan that really has other pegs. All others have
// those of the plan, so that what follows it lies elsewhere.
type Miscount struct{ Run, Pegs int }

// A LaidMark is a running length read off the cable where it lies.
type LaidMark struct {
	Length float64 // mm; 0: the half-way mark
	Run    int
	Pegs   float64 // from the run's start
	Span   Span
}

// A LaidSensor is where a sensor's tip and lead lie.
type LaidSensor struct {
	Tip  *plane.Point
	Lead []plane.Point
}

// Whole reports whether the table says where the whole cable lies, as far as it says by
// itself.
func (a *Laid) Whole() bool {
	return a.AsPlanned || len(a.Corners) > 0 || len(a.Legs) > 0 || a.Runs == 0 && len(a.PhotoRuns()) > 0
}

// readAsLaid reads what is known of the cables as laid.
func (j *Job) readAsLaid(top table, open func(string) ([]byte, error)) {
	seen, spoken := map[string]Span{}, map[int]bool{}
	for _, t := range top.each("as_laid") {
		room, ok := j.roomNamed(t)
		if !ok || !j.Rooms[room].usable() {
			continue
		}
		key := fmt.Sprint(room, t.text("cable"))
		if first, twice := seen[key]; twice {
			t.with("room", "put both into one table, or name the cable of each", []Note{{first, "the first is here"}},
				"room %q has two [[as_laid]] for one cable", j.Rooms[room].Name)
			continue
		}
		seen[key], spoken[room] = t.span(), true
		if a, ok := j.asLaid(t, room, open); ok {
			j.Laid = append(j.Laid, a)
		}
	}
	j.checkEvidence(top, spoken)
}

func (j *Job) roomNamed(t table) (int, bool) {
	if t.text("room") == "" {
		return 0, false // reported as missing
	}
	var names []string
	for i, r := range j.Rooms {
		if r.Name == t.text("room") {
			return i, true
		}
		names = append(names, r.Name)
	}
	hint := "rooms here: " + strings.Join(names, ", ")
	if near := nearest(t.text("room"), names); near != "" {
		hint = fmt.Sprintf("did you mean %q?", near)
	}
	t.errorf("room", hint, "the job has no room %q", t.text("room"))
	return 0, false
}

// asLaid reads one table; ok is false when something in it was reported.
func (j *Job) asLaid(t table, room int, open func(string) ([]byte, error)) (a Laid, ok bool) {
	a = Laid{Room: room, Cable: t.text("cable"), Date: t.date("date"), By: t.text("by"), Error: t.num("error"),
		FingerRoom: t.numOr("finger_room", -1),
		Lot:        t.text("lot"), Tester: t.text("tester"), TripTest: t.text("trip_test"), Lead: t.num("trimmed_lead"),
		Volts: t.num("hook_up_volts"), Amps: t.num("hook_up_amps"),
		AsPlanned: t.flag("as_planned"), Runs: t.whole("runs"), Span: t.span(), Spans: t.spans()}
	for i, name := range evidenceNames() {
		if name == t.text("evidence") {
			a.Evidence = Evidence(i)
		}
	}
	a.Legs = readLegs(t)
	a.Marks = readMarks(t)
	a.Readings = readReadings(t)
	onePath(t)
	j.Rooms[room].laidPoints(t, &a)
	if a.PlanCode = readPlanCode(t); a.PlanCode == "" {
		if a.Issued = j.readIssued(t, &a, open); a.Issued != nil {
			a.PlanCode = a.Issued.Code
		}
	}
	j.readPhotos(t, &a, open)
	return a, !t.broken()
}

// onePath refuses a table that says in two ways where the cable lies.
func onePath(t table) {
	ways := given(t, "as_planned", "corners", "legs", "runs")
	if t.has("as_planned") && !t.flag("as_planned") {
		ways = ways[1:]
	}
	if len(ways) > 1 {
		t.errorf(ways[1], "keep one of them", "the cable's place is given by %s and by %s",
			strings.Join(ways[:len(ways)-1], ", by "), ways[len(ways)-1])
		t.spoil()
	}
	if t.flag("as_planned") && !t.has("plan") {
		t.errorf("as_planned", "add plan = \""+plancode.Example+
			"\", the plan code in the title block of the drawings on site, or the layout file that draw wrote "+
			"beside them", "as_planned needs the plan it was held against: a plan worked out anew may lie otherwise")
		t.spoil()
	}
	if t.has("legs") != t.has("start") {
		key := "legs"
		if t.has("start") {
			key = "start"
		}
		t.errorf(key, "legs are counted from start = [x, y], the start of heat", "legs and start go together")
		t.spoil()
	}
}

// laidPoints reads the points of a table, off two walls where it names them,
// and refuses those that are not in the room.
func (r *Room) laidPoints(t table, a *Laid) {
	at, ok := r.taping(t)
	if !ok {
		t.spoil() // nobody knows where the points are
		return
	}
	r.tileAsLaid(t, at)
	for _, p := range []struct {
		name string
		to   **plane.Point
	}{{"start", &a.Start}, {"first_peg", &a.FirstPeg}, {"joint", &a.Joint}, {"end_cap", &a.EndCap}, {"sensor",
		&a.Sensor.Tip}, {"spare", &a.Spare.Tip}} {
		if t.readable(p.name) {
			q := at(t.point(p.name))
			*p.to = &q
			r.laidInside(t, p.name+": "+t.taped(t.point(p.name)), t.at(p.name), q)
		}
	}
	for _, l := range []struct {
		name string
		to   *[]plane.Point
	}{{"corners", &a.Corners}, {"cold_lead", &a.ColdLead}, {"return_lead", &a.Return}, {"sensor_lead", &a.Sensor.Lead},
		{"spare_lead", &a.Spare.Lead}} {
		for i, p := range t.points(l.name) {
			q := at(p)
			*l.to = append(*l.to, q)
			r.laidInside(t, fmt.Sprintf("%s, point %d: %s", l.name, i+1, t.taped(p)), t.atItem(l.name, i), q)
		}
	}
}

// tileAsLaid takes the first tile as it was found on the floor for the one the job
// set out. Two records of one room must not differ in it.
func (r *Room) tileAsLaid(t table, at func(plane.Point) plane.Point) {
	if !t.readable("first_tile") {
		return
	}
	var pts []plane.Point
	for _, p := range t.points("first_tile") {
		pts = append(pts, at(p))
	}
	s, ok := r.firstTile(t, pts)
	switch {
	case !ok:
		t.spoil()
	case r.tileFound.File != "" && s != r.FirstTile:
		t.with("first_tile", "a room is tiled once: keep the one that was measured",
			[]Note{{r.tileFound, "the other is here"}}, "room %q has two places of its first tile", r.Name)
		t.spoil()
	default:
		r.FirstTile, r.tileFound = s, t.at("first_tile")
	}
}

// taped says where a point of the table lies, in the way it was measured.
func (t table) taped(p plane.Point) string {
	if d := t.texts("datums"); len(d) == 2 {
		return fmt.Sprintf("%s off wall %s and %s off wall %s", t.length(p.X), d[0], t.length(p.Y), d[1])
	}
	return t.rd.place(p)
}

// laidInside refuses a measured point outside the room, by what it is and where.
// A tape held to a wall that bulges may be an inch off.
func (r *Room) laidInside(t table, what string, span Span, p plane.Point) bool {
	wall, off := r.nearestWall(p)
	if r.Outline.Contains(p) || off <= onWallReach+r.slack() {
		return true
	}
	t.spoil()
	hint := "look whether it was measured from the walls that datums names"
	switch {
	case strings.HasPrefix(what, "plan"):
		hint = "look whether it is the plan of this room, and whether the walls are as they were when it was drawn"
	case !t.has("datums"):
		hint = "points are [x, y] in the coordinates of the room's corners, x east and y north; with datums = " +
			"[\"D\", \"A\"] they are taped from two walls"
		if t.rd.units != plane.NoUnits {
			hint += fmt.Sprintf("; a bare number is read in %s", map[plane.Units]string{plane.Inches: "inches",
				plane.Millimetres: "millimetres"}[t.rd.units])
		}
	}
	t.rd.report.Add(Diagnostic{Span: span, Notes: r.wallNote(t, wall), Hint: hint,
		Message: fmt.Sprintf("%s is %s outside wall %s of room %q", what, t.length(off), r.Walls[wall].Letter, r.Name)})
	return false
}

// taping returns how a table's points become places on the floor.
func (r *Room) taping(t table) (func(plane.Point) plane.Point, bool) {
	names := t.texts("datums")
	if t.has("datums") && !t.readable("datums") {
		return nil, false // reported
	}
	if len(names) == 0 {
		return func(p plane.Point) plane.Point { return p }, true
	}
	if len(names) != 2 {
		t.errorf("datums", "name two walls that are not parallel",
			"datums names %d walls; every point is taped from two", len(names))
		return nil, false
	}
	a, okA := r.wallNamed(t, "datums", names[0], "a datum")
	b, okB := r.wallNamed(t, "datums", names[1], "a datum")
	if !okA || !okB {
		return nil, false
	}
	if _, ok := r.OffWalls(a, 0, b, 0); !ok {
		t.errorf("datums", "name two walls that are about square to each other",
			"walls %s and %s are parallel: they do not fix a point", r.Walls[a].Letter, r.Walls[b].Letter)
		return nil, false
	}
	return func(p plane.Point) plane.Point { q, _ := r.OffWalls(a, p.X, b, p.Y); return q }, true
}

// OffWalls returns the point that lies da mm from the face of wall a and db mm
// from that of wall b, into the room, square to each; ok is false where the
// walls are within 10 degrees of parallel.
func (r *Room) OffWalls(a int, da float64, b int, db float64) (p plane.Point, ok bool) {
	const parallel = 0.17 // sine of 10 degrees
	wa, wb := r.Walls[a].Segment, r.Walls[b].Segment
	na, nb := r.inward(a), r.inward(b)
	det := na.Cross(nb)
	if math.Abs(det) < parallel {
		return plane.Point{}, false
	}
	ca, cb := na.Dot(wa.A)+da, nb.Dot(wb.A)+db
	return plane.Pt((float64(ca*nb.Y)-float64(cb*na.Y))/det, (float64(cb*na.X)-float64(ca*nb.X))/det), true
}

// mostPegs is more than any run has; a figure beyond it is a slip.
const mostPegs = 10000

func readLegs(t table) []Leg {
	var out []Leg
	for i, s := range t.texts("legs") {
		bearing, rest, ok := CutBearing(strings.TrimSpace(s))
		pegs, err := strconv.Atoi(strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(rest), "pegs")))
		if !ok || math.Mod(bearing, WindApart) != 0 || err != nil || pegs < 1 || pegs > mostPegs {
			t.rd.report.Errorf(t.atItem("legs", i),
				`write it like "north 75": one of the eight compass words and the pegs counted`,
				"leg %d, %q, is not a direction and a number of pegs", i+1, s)
			t.spoil()
			continue
		}
		out = append(out, Leg{bearing, pegs})
	}
	return out
}

func readMarks(t table) []LaidMark {
	var out []LaidMark
	for _, m := range limited(t, "mark") {
		if !m.broken() {
			out = append(out, LaidMark{m.num("length"), m.whole("run"), m.num("pegs"), m.span()})
		}
	}
	return out
}

// checkEvidence refuses the status as laid for a room of which nothing says
// how its cable was found.
func (j *Job) checkEvidence(top table, spoken map[int]bool) {
	if j.Info.Status != AsLaid || top.broken() {
		return
	}
	info := top.sub("job")
	for _, a := range j.Laid {
		a.checkFor(info, j.Rooms[a.Room].Name)
	}
	for i, r := range j.Rooms {
		if !spoken[i] && r.usable() {
			info.errorf("status", "add [[as_laid]] for it with its evidence, or take status = \"for installation\": "+
				"a plan never passes for what was laid", "the status is \"as laid\", but nothing says how the cable "+
				"of room %q was found to lie", r.Name)
		}
	}
}

func (a *Laid) checkFor(info table, room string) {
	note := []Note{{info.at("status"), "the status is set here"}}
	at := a.Spans.At("evidence")
	switch {
	case a.Evidence == PlanOnly:
		info.rd.report.Add(Diagnostic{Span: at, Notes: note, Hint: "measure it, or take status = \"for installation\"",
			Message: fmt.Sprintf("the status is \"as laid\", but the evidence for room %q is the plan only", room)})
	case !a.Whole():
		info.rd.report.Add(Diagnostic{Span: at, Notes: note,
			Hint: "add corners, or start and legs; or as_planned = true with plan, once every run has been held " +
				"against it",
			Message: fmt.Sprintf("the status is \"as laid\", but nothing says where the cable of room %q lies", room)})
	}
}
