package main

import (
	"bytes"
	"crypto/sha256"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
	"unicode"

	"oxturn/drawing/pdf"
	"oxturn/layout/asjson"
	"oxturn/layout/job"
)

// manifestName is the file of a PDF that lists what else of the job is in it.
const manifestName = "oxturn.json"

// manifestSchema is the newest version of that list that is understood.
const manifestSchema = 1

// A manifest says of what a PDF was drawn.
type manifest struct {
	Schema  int      `json:"schema"`
	Plan    string   `json:"plan_code"`
	LeftOut string   `json:"left_out,omitempty"` // of the files, in words
	Files   []listed `json:"files"`
}

// A listed file is one of them.
type listed struct {
	File  string `json:"file"`
	Role  string `json:"role"`
	Named string `json:"named_by_the_job,omitempty"`
	Sum   string `json:"sha256"`
}

// What a file is to a job.
const (
	roleJob       = "job"
	roleCatalogue = "catalogue"
	rolePrices    = "prices"
	roleRecord    = "plan it was laid by"
	roleLayout    = "layout"
	rolePhoto     = "photo"
)

// aboutRole says it to whoever looks into the PDF.
var aboutRole = map[string]string{
	roleJob: "the job file these sheets were drawn from", roleCatalogue: "cables by their labels",
	rolePrices: "prices of the take-off", roleRecord: "the plan that cable was laid by, as a layout file",
	roleLayout: "the plan drawn here, as a layout file",
	rolePhoto:  "a photo before covering, made smaller; what else its camera wrote was left out",
}

// withoutMoney is what the copies of a job lack that go to whom prices are no business of.
const withoutMoney = "prices and comments"

// carried are the files of a job that its PDF carries, so that nothing but the PDF
// is needed years later: the job, what it names, and the plan.
func (w *work) carried() ([]pdf.File, error) {
	var layout bytes.Buffer
	if err := w.plan.WriteFile(&layout); err != nil {
		return nil, err
	}
	p := &packing{seen: map[string]bool{manifestName: true}}
	p.Schema, p.Plan = manifestSchema, w.plan.Code
	if p.priced = !w.copied && (w.source.drawn == nil || w.source.drawn.LeftOut == ""); !p.priced {
		p.LeftOut = withoutMoney
	}
	p.add(w.source.file, roleJob, "", w.source.data)
	for _, k := range w.source.kept.files {
		name, data := path.Base(strings.ReplaceAll(k.named, `\`, "/")), k.data
		if ph := w.job.PhotoNamed(k.named); ph != nil {
			small, err := ph.Small()
			if err != nil {
				return nil, err
			}
			name, data = strings.TrimSuffix(name, path.Ext(name))+".jpg", small
		}
		p.add(name, roleOf(w.job, k.named), k.named, data)
	}
	p.add(w.source.base+".layout.json", roleLayout, "", layout.Bytes())
	var list bytes.Buffer
	if err := asjson.Write(&list, p.manifest); err != nil {
		return nil, err
	}
	return append(p.files, pdf.File{Name: manifestName, Type: "application/json", Relation: "Supplement",
		About: "what is in this document besides its sheets", Data: list.Bytes()}), p.err
}

func roleOf(j *job.Job, named string) string {
	switch named {
	case j.Catalogue:
		return roleCatalogue
	case j.PriceFile:
		return rolePrices
	}
	if j.PhotoNamed(named) != nil {
		return rolePhoto
	}
	return roleRecord
}

// A packing is what goes into a PDF while it is put together.
type packing struct {
	manifest
	priced bool
	files  []pdf.File
	seen   map[string]bool // names, in small letters: some disks know no others
	err    error
}

func (p *packing) add(name, role, named string, data []byte) {
	if !p.priced {
		switch role {
		case rolePrices:
			return
		case roleJob, roleCatalogue:
			var err error
			data, err = job.Unpriced(data)
			p.err = errors.Join(p.err, err)
		}
	}
	name = p.unlike(name)
	about, relation := aboutRole[role], "Source"
	if role == roleLayout {
		relation = "Data"
	}
	p.Files = append(p.Files, listed{name, role, named, sum(data)})
	p.files = append(p.files, pdf.File{Name: name, Type: mediaType(name), About: about, Relation: relation, Data: data})
}

// unlike makes a name that any disk takes and no file before has.
func (p *packing) unlike(name string) string {
	name = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || strings.ContainsRune(`/\:`, r) {
			return '_'
		}
		return r
	}, name)
	if checkName(name) != nil {
		name = "file"
	}
	ending := name[max(0, strings.IndexByte(name, '.')):] // .layout.json goes together
	for out, n := name, 2; ; n++ {
		if !p.seen[strings.ToLower(out)] {
			p.seen[strings.ToLower(out)] = true
			return out
		}
		out = fmt.Sprintf("%s-%d%s", strings.TrimSuffix(name, ending), n, ending)
	}
}

func mediaType(name string) string {
	switch strings.ToLower(path.Ext(name)) {
	case ".toml":
		return "application/toml"
	case ".json":
		return "application/json"
	case ".csv":
		return "text/csv"
	case ".jpg":
		return "image/jpeg"
	}
	return "application/octet-stream"
}

func sum(data []byte) string { return fmt.Sprintf("%x", sha256.Sum256(data)) }

// packed is what a PDF carries.
type packed struct {
	manifest
	data map[string][]byte // by name
}

// unpacked reads what a PDF carries. The error says why no job comes of it.
func unpacked(data []byte) (*packed, error) {
	files, err := pdf.Embedded(data, pdfLimit)
	if err != nil {
		return nil, err
	}
	d := &packed{data: map[string][]byte{}}
	for _, f := range files {
		d.data[f.Name] = f.Data
	}
	list, ok := d.data[manifestName]
	if !ok {
		return nil, errors.New("this PDF carries no job: it was not drawn by oxturn, or was printed anew since")
	}
	if err := json.Unmarshal(list, &d.manifest); err != nil || d.Schema < 1 {
		return nil, fmt.Errorf("the list of what this PDF carries cannot be read: %w", errors.Join(err))
	}
	if d.Schema > manifestSchema {
		return nil, fmt.Errorf("this PDF is of format %d, and this version reads format %d and older: take a newer "+
			"oxturn", d.Schema, manifestSchema)
	}
	return d, d.whole()
}

// whole holds every file against its sum.
func (d *packed) whole() error {
	for _, f := range d.Files {
		data, ok := d.data[f.File]
		switch {
		case checkName(f.File) != nil:
			return fmt.Errorf("a file in this PDF is called %q, which is no name for a file", f.File)
		case !ok:
			return fmt.Errorf("%s, the %s, is no longer in this PDF", f.File, f.Role)
		case sum(data) != f.Sum:
			return fmt.Errorf("%s, the %s, was changed after this PDF was drawn", f.File, f.Role)
		}
	}
	if _, ok := d.of(roleJob); !ok {
		return errors.New("this PDF carries no job")
	}
	return nil
}

// of returns the first file of a role.
func (d *packed) of(role string) (listed, bool) {
	for _, f := range d.Files {
		if f.Role == role {
			return f, true
		}
	}
	return listed{}, false
}

// open reads a file by the name that the job has for it.
func (d *packed) open(named string) ([]byte, error) {
	for _, f := range d.Files {
		if f.Named == named && named != "" {
			return d.data[f.File], nil
		}
	}
	return nil, errors.New("the PDF does not carry it")
}

// layout returns the layout file, as a reader of plans asks for it.
func (d *packed) layout(string) ([]byte, error) {
	f, ok := d.of(roleLayout)
	if !ok {
		return nil, errors.New("the PDF carries no layout file")
	}
	return d.data[f.File], nil
}

// layoutIn returns the layout file that a PDF carries.
func layoutIn(name string, data []byte) ([]byte, error) {
	d, err := unpacked(data)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return d.layout(name)
}

// unpack puts the job that a PDF carries in the place of the PDF.
func (s *source) unpack() error {
	d, err := unpacked(s.data)
	if err != nil {
		return fmt.Errorf("%s: %w", s.name, err)
	}
	f, _ := d.of(roleJob)
	s.drawn, s.data, s.file = d, d.data[f.File], f.File
	s.name += "/" + f.File
	s.keepOpened(d.open)
	return nil
}

// kept are the files that a job had read, in their order.
type kept struct {
	files []keptFile
}

type keptFile struct {
	named string // as the job names it
	data  []byte
}

// keepOpened has the source remember what it reads by open.
func (s *source) keepOpened(open func(string) ([]byte, error)) {
	k := &kept{}
	s.kept = k
	s.open = func(named string) ([]byte, error) {
		data, err := open(named)
		for _, f := range k.files {
			if f.named == named {
				return data, err
			}
		}
		if err == nil {
			k.files = append(k.files, keptFile{named, data})
		}
		return data, err
	}
}

// WriteJSON lists what a PDF carries for other programs.
func (d *packed) WriteJSON(w io.Writer) error { return asjson.Write(w, d.manifest) }
