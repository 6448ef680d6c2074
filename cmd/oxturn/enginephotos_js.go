package main

import (
	"errors"
	"fmt"
	"math"
	"os"
	"strings"

	"oxturn/drawing"
	"oxturn/drawing/web/preview"
	"oxturn/layout"
	"oxturn/layout/job"
	"oxturn/layout/job/tree"
	"oxturn/layout/photo"
	"oxturn/layout/plane"
	"oxturn/layout/say"
)

// A photoFile is what a picture says of itself.
type photoFile struct {
	Wide   int    `json:"wide"` // px, upright
	High   int    `json:"high"`
	Taken  string `json:"taken,omitempty"` // the day, by its camera
	Placed bool   `json:"placed"`          // its camera wrote where on earth
	Sum    string `json:"sum"`
}

const dayForm = "2006-01-02"

// takePhoto makes the small copy of a picture that all drawings come from. It keeps where the
// picture was taken: what leaves the page is copied once more, by copyPhoto.
func takePhoto(r request) (string, error) {
	p, err := photoNamed(r.Name)
	if err != nil {
		return "", err
	}
	small, err := p.Small(true)
	if err != nil {
		return "", fmt.Errorf("it cannot be unpacked: %w; save it anew from the camera or a viewer", err)
	}
	if err := os.WriteFile(r.To, small, 0o666); err != nil {
		return "", err
	}
	out := photoFile{Wide: p.Size.X, High: p.Size.Y, Placed: p.Placed != nil, Sum: p.Sum}
	if !p.Taken.IsZero() {
		out.Taken = p.Taken.Format(dayForm)
	}
	return asText(out)
}

func photoNamed(name string) (*photo.Picture, error) {
	data, err := os.ReadFile(name)
	if err != nil {
		return nil, err
	}
	p, err := photo.Read(data)
	switch {
	case errors.Is(err, photo.ErrHEIC):
		return nil, errors.New("it is a HEIC picture, which only some devices show; let the camera write JPEG, or " +
			"save the picture as JPEG, and take that")
	case errors.Is(err, photo.ErrForm):
		return nil, errors.New("it is neither a JPEG nor a PNG picture")
	}
	return p, err
}

// copyPhoto copies a photo for others, with where it was taken only if that is asked for.
func copyPhoto(r request) (string, error) {
	p, err := photoNamed(r.Name)
	if err != nil {
		return "", err
	}
	small, err := p.Small(r.Keep)
	if err != nil {
		return "", err
	}
	return "", os.WriteFile(r.To, small, 0o666)
}

// An xy is a place in a picture, or one on the floor, as a script has it.
type xy [2]float64

// A photoList is what the page shows of a job's photos, and by what it names places.
type photoList struct {
	Plan   string        `json:"plan"` // the code of the plan that is drawn; empty: none is
	Rooms  []photoRoom   `json:"rooms"`
	Photos []listedPhoto `json:"photos"`
}

// A listedPhoto is one as the job file has it, and what comes of it.
type listedPhoto struct {
	Table    string            `json:"table"` // the way to it in the file
	Room     string            `json:"room"`
	File     string            `json:"file"`
	Date     string            `json:"date"`
	Keep     bool              `json:"keep"`
	Points   []listedPoint     `json:"points"`
	Runs     []listedRun       `json:"runs"`
	Words    []string          `json:"words"`
	Worst    int               `json:"worst"` // the point that is farthest off; -1: that cannot be told
	Problems []preview.Problem `json:"problems"`
	Lines    []overPhoto       `json:"lines"`
	Numbers  []runOver         `json:"numbers"`
}

type listedPoint struct {
	Image xy     `json:"image"`
	Key   string `json:"key"`
	Value string `json:"value"` // as written
	Name  string `json:"name"`
	Off   string `json:"off"` // how far the photo has it from where it was said to be
}

type listedRun struct {
	Run   int  `json:"run"`
	Image []xy `json:"image"`
}

// An overPhoto is a line of the floor as the photo shows it.
type overPhoto struct {
	Kind string `json:"kind"` // "wall" or "cable"
	Path []xy   `json:"path"`
}

// A runOver is a run as the photo shows it.
type runOver struct {
	Run   int    `json:"run"`
	Cable string `json:"cable"`
	Path  []xy   `json:"path"`
}

// photos lists the photos of a job's text.
func (e *engine) photos(r request) (string, error) {
	text := tree.WithStraightQuotes(r.Text)
	root, err := tree.Parse([]byte(text))
	if err != nil {
		return "", err
	}
	w := &work{source: source{name: r.Name, base: baseName(r.Name), data: []byte(text), open: opener(r.Name)}}
	w.job, w.report = job.Read(r.Name, []byte(text), opener(r.Name))
	l := photoLister{engine: e, work: w, text: text}
	if e.laid != nil {
		l.out.Plan = e.laid.Code
	}
	laid := itemsOf(root.Get("as_laid"))
	if w.job != nil {
		for i := range w.job.Rooms {
			l.room(&w.job.Rooms[i], laid)
		}
	}
	for i, a := range laid {
		for k, p := range itemsOf(a.Get("photo")) {
			l.photo(fmt.Sprintf("as_laid/%d/photo/%d", i, k), a, p)
		}
	}
	return asText(l.out)
}

func itemsOf(n *tree.Node) []*tree.Node {
	if n == nil {
		return nil
	}
	return n.Items
}

func textAt(n *tree.Node, key string) string {
	if v := n.Get(key); v != nil {
		s, _ := v.Value.(string)
		return s
	}
	return ""
}

type photoLister struct {
	*engine
	work *work
	text string
	out  photoList
}

// written is a value as it stands in the file.
func (l *photoLister) written(n *tree.Node) string {
	if n == nil || n.Span.End > len(l.text) {
		return ""
	}
	return l.text[n.Span.Start:n.Span.End]
}

func (l *photoLister) photo(table string, record, n *tree.Node) {
	p := listedPhoto{Table: table, Room: textAt(record, "room"), File: textAt(n, "file"),
		Date: l.written(n.Get("date")), Worst: -1}
	if v := n.Get("keep_location"); v != nil {
		p.Keep, _ = v.Value.(bool)
	}
	points := n.Get("point")
	for _, pt := range itemsOf(points) {
		p.Points = append(p.Points, l.point(pt))
	}
	for _, run := range itemsOf(n.Get("run")) {
		lr := listedRun{Image: pixelsOf(run.Get("image"))}
		if v := run.Get("run"); v != nil {
			lr.Run = int(numberAt(v))
		}
		p.Runs = append(p.Runs, lr)
	}
	l.wrong(&p, n)
	if read := l.read(n); read != nil {
		l.fitted(&p, read)
	}
	l.out.Photos = append(l.out.Photos, p)
}

func (l *photoLister) point(n *tree.Node) (out listedPoint) {
	if px := n.Get("image"); px != nil && len(px.Items) == len(out.Image) {
		out.Image = xy{numberAt(px.Items[0]), numberAt(px.Items[1])}
	}
	for _, key := range []string{"corner", "mark", "at"} {
		if v := n.Get(key); v != nil {
			out.Key, out.Value = key, l.written(v)
			out.Name = strings.Trim(out.Value, `"'`)
		}
	}
	return out
}

func numberAt(n *tree.Node) float64 {
	switch v := n.Value.(type) {
	case int64:
		return float64(v)
	case float64:
		return v
	}
	return 0
}

func pixelsOf(n *tree.Node) (out []xy) {
	for _, px := range itemsOf(n) {
		if len(px.Items) == len(xy{}) {
			out = append(out, xy{numberAt(px.Items[0]), numberAt(px.Items[1])})
		}
	}
	return out
}

// wrong takes what is said of a photo's own lines; a point that it is said of is the worst.
func (l *photoLister) wrong(p *listedPhoto, n *tree.Node) {
	for _, d := range l.work.report.Diagnostics() {
		if d.Span.File != l.work.source.name || !holds(n, d.Span.Start) {
			continue
		}
		p.Problems = append(p.Problems, problem(l.work, d))
		for i, pt := range itemsOf(n.Get("point")) {
			if d.Severity == job.Error && holds(pt, d.Span.Start) {
				p.Worst = i
			}
		}
	}
}

// holds reports whether a byte is of a table, or of one in it.
func holds(n *tree.Node, at int) bool { return at >= n.Span.Start && at < lastByte(n) }

func lastByte(n *tree.Node) int {
	end := n.Span.End
	for _, f := range append(n.Fields, n.Items...) {
		end = max(end, lastByte(f))
	}
	return end
}

// read finds a photo as the job has it; nil where it is not sound.
func (l *photoLister) read(n *tree.Node) *job.Photo {
	if l.work.job == nil {
		return nil
	}
	for i := range l.work.job.Laid {
		for k := range l.work.job.Laid[i].Photos {
			if p := &l.work.job.Laid[i].Photos[k]; p.Span.Start == n.Span.Start {
				return p
			}
		}
	}
	return nil
}

// fitted says how well a photo tells places, and lays the floor over it.
func (l *photoLister) fitted(p *listedPhoto, read *job.Photo) {
	f, fit := l.work.job.Figures(), read.Fit
	p.Worst = -1
	for i := range p.Points {
		p.Points[i].Name = read.Points[i]
	}
	if fit.Free == 0 {
		p.Words = append(p.Words, fmt.Sprintf("%d points settle how the photo shows the floor, and none is left to "+
			"check them by. Two more would show one that was misread.", len(p.Points)))
	} else {
		for i, off := range fit.OffFloor {
			p.Points[i].Off = f.Spacing(off)
			if p.Worst < 0 || off > fit.OffFloor[p.Worst] {
				p.Worst = i
			}
		}
		worst := p.Points[p.Worst]
		p.Words = append(p.Words, fmt.Sprintf("The %d points are %s off on the mean. The worst is point %d (%s), "+
			"%s off.", len(p.Points), f.Spacing(fit.RMS()), p.Worst+1, worst.Name, worst.Off))
	}
	if fit.LensKnown {
		p.Words = append(p.Words, "The lens is taken out: "+say.PercentMore(fit.Lens)+" at the corners.")
	}
	if room := l.planned(p.Room); room != nil {
		p.Words = append(p.Words, statedError(f, room, read))
		l.over(p, fit, room)
	}
}

func statedError(f say.Figures, room *layout.Room, read *job.Photo) string {
	most := room.WorstIn(read)
	if most == 0 {
		return "The photo shows no cable closely enough for it to be told."
	}
	return "A place of cable read off this photo is within " + f.Spacing(most) +
		", 95 in 100 of them, where it tells least."
}

// planned finds a room of the newest plan.
func (l *photoLister) planned(name string) *layout.Room {
	if l.laid == nil {
		return nil
	}
	for i := range l.laid.Rooms {
		if r := &l.laid.Rooms[i]; r.Job.Name == name {
			return r
		}
	}
	return nil
}

func (l *photoLister) over(p *listedPhoto, fit *photo.Fit, room *layout.Room) {
	outline := room.Job.Outline
	walls := append(append([]plane.Point(nil), outline...), outline[0])
	p.Lines = append(p.Lines, seenAs("wall", fit, walls)...)
	for i := range room.Cables {
		c := &room.Cables[i]
		path := c.Path
		if c.Laid.Recorded() {
			path = c.Laid.Path
		}
		p.Lines = append(p.Lines, seenAs("cable", fit, path)...)
		for _, run := range c.Runs {
			if seen := seenAs("", fit, []plane.Point{run.From, run.To}); len(seen) == 1 {
				p.Numbers = append(p.Numbers, runOver{run.Number, c.ID, seen[0].Path})
			}
		}
	}
}

// seenStep is how far apart places of a line are that goes over a photo, mm: a lens bends it.
const seenStep = 150.0

// seenAs returns the pieces of a line that a photo has before the camera, in it or beside it.
func seenAs(kind string, fit *photo.Fit, line []plane.Point) (out []overPhoto) {
	var piece []xy
	end := func() {
		if len(piece) > 1 {
			out = append(out, overPhoto{kind, piece})
		}
		piece = nil
	}
	for i := 1; i < len(line); i++ {
		n := int(math.Ceil(line[i-1].Dist(line[i]) / seenStep))
		for k := 0; k <= n; k++ {
			if k == 0 && len(piece) > 0 {
				continue // the corner before
			}
			at, ok := fit.Image(line[i-1].Lerp(line[i], float64(k)/float64(max(n, 1))))
			if !ok {
				end()
				continue
			}
			piece = append(piece, xy{drawing.Round(at.X, 10), drawing.Round(at.Y, 10)})
		}
	}
	end()
	return out
}
