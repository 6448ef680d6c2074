package job

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync"
	"time"

	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A Photo is one of a floor before it was covered.
type Photo struct {
	File      string
	Taken     time.Time // by the job, else by the camera; zero: neither says
	KeepPlace bool      // where on earth it was taken goes into copies
	Points    []string  // what its known points are called, in the order of Fit.Pairs
	Runs      []PhotoRun
	Picture   *photo.Picture
	Fit       *photo.Fit
	Span      Span

	bounds plane.Rect // of its room
	flat   func() (*photo.Rectified, error)
}

// A PhotoRun is a run that a photo shows elsewhere than planned.
type PhotoRun struct {
	Run   int
	Image []photo.Pixel
	Photo int // index into the record's photos
	Span  Span
}

// Flat is the picture in the floor's plane, as far as the room goes; nil where it shows none
// of the room.
func (p *Photo) Flat() (*photo.Rectified, error) {
	flat, err := p.flat()
	return flat, p.unpacked(err)
}

// UnpackedBefore takes over what was unpacked of the photos of the same job as it was read
// before: of files that are the same, and in the floor's plane where points and room are too.
func (j *Job) UnpackedBefore(old *Job) {
	if old == nil {
		return
	}
	had := map[string]*Photo{}
	for i := range old.Laid {
		for k := range old.Laid[i].Photos {
			had[old.Laid[i].Photos[k].Picture.Sum] = &old.Laid[i].Photos[k]
		}
	}
	for i := range j.Laid {
		for k := range j.Laid[i].Photos {
			p := &j.Laid[i].Photos[k]
			if was := had[p.Picture.Sum]; was != nil {
				p.takeOver(was)
			}
		}
	}
}

func (p *Photo) takeOver(was *Photo) {
	p.Picture = was.Picture
	if p.bounds == was.bounds && slices.Equal(p.Fit.Pairs, was.Fit.Pairs) {
		p.flat = was.flat
		return
	}
	p.flat = flattened(p.Picture, p.Fit, p.bounds)
}

// flattened puts a picture into the floor's plane once it is asked for, and once only.
func flattened(picture *photo.Picture, fit *photo.Fit, bounds plane.Rect) func() (*photo.Rectified, error) {
	return sync.OnceValues(func() (*photo.Rectified, error) {
		flat, _, err := photo.Rectify(picture, fit, bounds, flatEdge)
		return flat, err
	})
}

// Preview is the picture upright in small, as a JPEG, its longer edge so many pixels.
func (p *Photo) Preview(edge int) ([]byte, error) {
	small, err := p.Picture.Preview(edge)
	return small, p.unpacked(err)
}

// Small is the copy of the picture that drawings come from, with the place where it was taken
// only where the job keeps it.
func (p *Photo) Small() ([]byte, error) {
	small, err := p.Picture.Small(p.KeepPlace)
	return small, p.unpacked(err)
}

// unpacked says of which photo it is that the pixels cannot be read.
func (p *Photo) unpacked(err error) error {
	if err == nil {
		return nil
	}
	return fmt.Errorf("photo %q cannot be unpacked: %w", p.File, err)
}

// Name is what the photo is called: its file without folders, and its day.
func (p *Photo) Name() string {
	name := p.File[strings.LastIndexAny(p.File, `/\`)+1:]
	if !p.Taken.IsZero() {
		name += ", " + p.Taken.Format(time.DateOnly)
	}
	return name
}

// ShortSum is as much of the file's sum as drawings print.
func (p *Photo) ShortSum() string { return p.Picture.Sum[:12] }

// PhotoRuns are the runs that photos show elsewhere than planned, in the order of the file.
func (a *Laid) PhotoRuns() (out []PhotoRun) {
	for i := range a.Photos {
		out = append(out, a.Photos[i].Runs...)
	}
	return out
}

// The marks that a point of a photo may be.
const (
	markStart = "START"
	markEnd   = "END"
	markBox   = "BOX"
	markS1    = "S1"
	markS2    = "S2"
)

func markNames() []string { return []string{markStart, markEnd, markS1, markS2, markBox} }

// readPhotos reads the photos of a record.
func (j *Job) readPhotos(t table, a *Laid, open func(string) ([]byte, error)) {
	photos := limited(t, "photo")
	if len(photos) == 0 || t.broken() { // else what was said of its datums would be said again
		return
	}
	r := &j.Rooms[a.Room]
	at, ok := r.taping(t)
	for _, pt := range photos {
		if !ok || pt.broken() {
			t.spoil()
			continue
		}
		if n := j.photos() + len(a.Photos); n >= mostPhotos {
			pt.errorf("file", "leave out those that show nothing new", "the job has more than %d photos", mostPhotos)
			t.spoil()
			break
		}
		p := photoTable{table: pt, room: r, laid: a, taped: at}
		if read, ok := p.read(len(a.Photos), open); ok {
			a.Photos = append(a.Photos, read)
		} else {
			t.spoil()
		}
	}
}

// mostPhotos is how many photos a job has at most: its PDF carries them.
const mostPhotos = 40

func (j *Job) photos() (n int) {
	for _, a := range j.Laid {
		n += len(a.Photos)
	}
	return n
}

// PhotoNamed returns the first photo of a file, as the job names it; nil for none.
func (j *Job) PhotoNamed(file string) *Photo {
	for i := range j.Laid {
		for k := range j.Laid[i].Photos {
			if p := &j.Laid[i].Photos[k]; p.File == file {
				return p
			}
		}
	}
	return nil
}

// A photoTable is one [[as_laid.photo]] while it is read.
type photoTable struct {
	table
	room  *Room
	laid  *Laid
	taped func(plane.Point) plane.Point
	spots []table // of the points
}

func (t *photoTable) read(index int, open func(string) ([]byte, error)) (Photo, bool) {
	p := Photo{File: t.text("file"), Taken: t.date("date"), KeepPlace: t.flag("keep_location"), Span: t.span()}
	var ok bool
	if p.Picture, ok = t.picture(p.File, open); !ok || !t.sameSum(&p) {
		return p, false
	}
	switch camera := p.Picture.Taken; {
	case p.Taken.IsZero():
		p.Taken = camera
	case !camera.IsZero() && !camera.Equal(p.Taken):
		t.rd.report.Warnf("W010", t.at("date"), "look which of the two is right; cameras keep the day they "+
			"were set to",
			"photo %q is said to be of %s, but its camera wrote %s into it", p.File, p.Taken.Format(time.DateOnly),
			camera.Format(time.DateOnly))
	}
	pairs, ok := t.points(&p)
	if !ok {
		return p, false
	}
	fit, err := photo.FitTo(p.Picture.Size, pairs)
	if err != nil {
		t.tell(&p, err)
		return p, false
	}
	p.Fit = fit
	p.Runs = t.runs(&p, index)
	p.bounds = t.room.Outline.Bounds()
	p.flat = flattened(p.Picture, p.Fit, p.bounds)
	return p, !t.broken()
}

// flatEdge is the longer edge of a picture in the floor's plane, px: a pixel takes 2.4 mm of a
// bath's floor.
const flatEdge = 1000

func (t *photoTable) picture(file string, open func(string) ([]byte, error)) (*photo.Picture, bool) {
	const hint = "the name is looked up from where the job file lies; or take its [[as_laid.photo]] out"
	if open == nil {
		t.errorf("file", hint, "photo %q cannot be read here", file)
		return nil, false
	}
	data, err := open(file)
	if err != nil {
		t.errorf("file", hint, "photo %q cannot be read: %v", file, reason(err))
		return nil, false
	}
	p, err := photo.Read(data)
	if err != nil {
		t.errorf("file", "name a JPEG or a PNG, as the camera or a viewer saves it", "photo %q: %v", file, err)
		return nil, false
	}
	return p, true
}

// sumDigits is how many digits of a sum are asked for.
const sumDigits = 8

// sameSum holds the file against the sum that the record has of it.
func (t *photoTable) sameSum(p *Photo) bool {
	if !t.has("sha256") {
		return true
	}
	want := strings.ToLower(strings.TrimSpace(t.text("sha256")))
	switch {
	case len(want) < sumDigits || len(want) > len(p.Picture.Sum) || strings.Trim(want, "0123456789abcdef") != "":
		t.errorf("sha256", fmt.Sprintf("the file's own is %s", p.ShortSum()),
			"sha256 is %d or more hexadecimal digits, not %q", sumDigits, t.text("sha256"))
	case !strings.HasPrefix(p.Picture.Sum, want):
		t.errorf("sha256", "find the file that was recorded: a viewer that turned or saved it made another",
			"photo %q is not the file that was recorded: its sum begins with %s, the record's with %s", p.File,
			p.ShortSum(), want[:min(len(want), 12)])
	default:
		return true
	}
	return false
}

// mostPoints is how many known points a photo may have.
const mostPoints = 40

func (t *photoTable) points(p *Photo) (out []photo.Pair, ok bool) {
	t.spots, ok = t.each("point"), true
	if len(t.spots) > mostPoints {
		t.errorf("point", "leave some out", "photo %q has %d known points; %d are taken at most", p.File, len(t.spots),
			mostPoints)
		return nil, false
	}
	for _, pt := range t.spots {
		if pt.broken() {
			return nil, false
		}
		name, at, found := t.place(pt)
		if ok = ok && found; !found {
			continue
		}
		p.Points = append(p.Points, name)
		out = append(out, photo.Pair{Image: value[photo.Pixel](pt, "image"), Floor: at})
	}
	return out, ok
}

// place finds where on the floor a point is, and what it is called.
func (t *photoTable) place(pt table) (name string, at plane.Point, ok bool) {
	ways := given(pt, "corner", "at", "mark")
	switch {
	case len(ways) == 0:
		pt.errorf("image", `add corner = "A", at = [x, y] or "A 4ft, 2ft", or mark = "END"`,
			"the point is not said to be anywhere on the floor")
		return "", at, false
	case len(ways) > 1:
		pt.errorf(ways[1], "keep one of the two", "the point has both %s and %s", ways[0], ways[1])
		return "", at, false
	}
	switch ways[0] {
	case "corner":
		wall, ok := t.room.wallLettered(pt, "corner", pt.text("corner"), "the point")
		if !ok {
			return "", at, false
		}
		return "corner " + t.room.Walls[wall].Letter, t.room.Walls[wall].A, true
	case "mark":
		return t.marked(pt)
	}
	if w := value[wallPoint](pt, "at"); w.wall == "" {
		at = t.taped(w.point)
		return plane.FormatLength(w.point.X, t.rd.drawingUnits()) + ", " + plane.FormatLength(w.point.Y,
			t.rd.drawingUnits()), at, t.room.laidInside(pt, "at: "+t.table.taped(w.point), pt.at("at"), at)
	}
	at, ok = t.room.spotOf(pt, "at", "the point")
	text, _ := pt.n.Get("at").Value.(string)
	return strings.Join(strings.Fields(text), " "), at, ok
}

// marked finds a thing that the record has measured.
func (t *photoTable) marked(pt table) (name string, at plane.Point, ok bool) {
	mark := pt.text("mark")
	if mark == markBox {
		if _, hangs := t.room.BoxWall(); hangs {
			return mark, t.room.Thermostat.At, true
		}
		pt.errorf("mark", "give the point by corner or at", "room %q has no box on a wall", t.room.Name)
		return "", at, false
	}
	from, key := t.laid.Joint, "joint"
	switch mark {
	case markStart:
		if from == nil {
			from = t.laid.Start
		}
	case markEnd:
		from, key = t.laid.EndCap, "end_cap"
	case markS1:
		from, key = t.laid.Sensor.Tip, "sensor"
	case markS2:
		from, key = t.laid.Spare.Tip, "spare"
	}
	if from == nil {
		pt.errorf("mark", "add "+key+" = [x, y] to the record, as measured, or give the point by corner or at",
			"%s is known from the plan only, and a plan does not say where it lies: the record has no %s", mark, key)
		return "", at, false
	}
	return mark, *from, true
}

// runs reads the runs that lie elsewhere.
func (t *photoTable) runs(p *Photo, index int) (out []PhotoRun) {
	for _, rt := range limited(t.table, "run") {
		if rt.broken() {
			t.spoil()
			continue
		}
		run := PhotoRun{Run: rt.whole("run"), Image: value[[]photo.Pixel](rt, "image"), Photo: index, Span: rt.span()}
		for i, px := range run.Image {
			if !p.Fit.Holds(px) {
				rt.rd.report.Errorf(rt.atItem("image", i), pixelHint(p), "run %d, point %d, %s, is outside the "+
					"picture, which is %s", run.Run, i+1, pixelWords(px), sizeWords(p))
				t.spoil()
			} else if _, ok := p.Fit.Floor(px); !ok {
				rt.rd.report.Errorf(rt.atItem("image", i), "look at that point once more", "run %d, point %d, %s, "+
					"shows no floor: it is above the horizon of photo %q", run.Run, i+1, pixelWords(px), p.File)
				t.spoil()
			}
		}
		out = append(out, run)
	}
	return out
}

func pixelWords(p photo.Pixel) string {
	return fmt.Sprintf("[%s, %s]", say.TrimFigure(p.X), say.TrimFigure(p.Y))
}

func sizeWords(p *Photo) string {
	return fmt.Sprintf("%d x %d pixels", p.Picture.Size.X, p.Picture.Size.Y)
}

func pixelHint(p *Photo) string {
	return fmt.Sprintf("count pixels in the picture as it is seen upright, %s, to the right and down from its upper "+
		"left corner; a viewer that shows another size has made it smaller or does not turn it", sizeWords(p))
}

// tell says what is wrong with the known points.
func (t *photoTable) tell(p *Photo, err error) {
	var f *photo.Fault
	if !errors.As(err, &f) {
		t.errorf("file", "", "photo %q: %v", p.File, err)
		return
	}
	called := func(i int) string { return fmt.Sprintf("point %d (%s)", f.Points[i]+1, p.Points[f.Points[i]]) }
	span := t.span()
	var notes []Note
	if len(f.Points) > 0 {
		last := t.spots[f.Points[len(f.Points)-1]]
		span = last.at("image")
		for _, i := range f.Points[:len(f.Points)-1] {
			notes = append(notes, Note{t.spots[i].at("image"), fmt.Sprintf("point %d is here", i+1)})
		}
	}
	d := Diagnostic{Span: span, Notes: notes, Hint: "look at both pixels and places once more"}
	switch f.Trouble {
	case photo.TooFew:
		d.Message = fmt.Sprintf("photo %q has %d known points, and %d at least settle how it shows the floor", p.File,
			len(t.spots), photo.FewestPairs)
		d.Hint = "add [[as_laid.photo.point]] tables: corners of the room, or places taped on the membrane, spread " +
			"over the floor; six or more say how far off a place may be"
	case photo.Outside:
		d.Message = fmt.Sprintf("%s, %s, is outside the picture, which is %s", called(0),
			pixelWords(p.pixel(t, f.Points[0])), sizeWords(p))
		d.Hint = pixelHint(p)
	case photo.SamePlace:
		d.Message = fmt.Sprintf("%s and %s are at one place, in the picture or on the floor", called(0), called(1))
		d.Hint = "leave one of them out, or correct it"
	case photo.OnALine:
		d.Message = fmt.Sprintf("%s, %s and %s lie on a line, and no four points of photo %q are without three on one",
			called(0), called(1), called(2), p.File)
		d.Hint = "add points off that line: at best one near each corner of what is seen of the floor"
	case photo.Exchanged:
		d.Message = fmt.Sprintf("the points of photo %q do not go together%s; with %s and %s exchanged they do", p.File,
			t.farWords(f.By), called(0), called(1))
		d.Hint = "exchange their pixels, if that is what happened"
	case photo.Mirrored:
		d.Message = fmt.Sprintf("photo %q would show the floor as in a mirror", p.File)
		d.Hint = "pixels are counted down from the upper left corner, places [x, y] with x east and y north; off two " +
			"walls the distances come in the order of datums"
	case photo.Astray:
		d.Message = fmt.Sprintf("%s is %s off where all other points of photo %q have it", called(0), t.length(f.By),
			p.File)
		d.Hint = "look at its pixel and its place once more, or leave it out"
	default:
		d.Message = fmt.Sprintf("the points of photo %q do not go together%s", p.File, t.farWords(f.By))
		d.Hint = "look at every pixel and place once more, and whether all points lie on the floor, at one " +
			"height; two more points would tell which of them is wrong"
	}
	t.rd.report.Add(d)
}

func (p *Photo) pixel(t *photoTable, i int) photo.Pixel {
	return value[photo.Pixel](t.spots[i], "image")
}

// farWords says how far off points are, where that is a figure of a floor.
func (t *photoTable) farWords(mm float64) string {
	if mm > 1e5 {
		return ""
	}
	return fmt.Sprintf(": they are %s off on the mean, and %s is taken at most", t.length(mm), t.length(photo.MostOff))
}
