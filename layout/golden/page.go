package golden

import (
	"encoding/base64"
	"html/template"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// A change is a golden file as it was kept and as it is now drawn.
type change struct {
	Name     string
	Old, New []byte
}

// changes are those of one run, to be looked at side by side.
type changes []change

// Drawn reports whether the file is a drawing, to be shown as a picture.
func (c change) Drawn() bool { return strings.HasSuffix(c.Name, ".svg") }

// Where says where the two first differ.
func (c change) Where() string { return firstDifference(c.New, c.Old) }

// Was is the kept drawing as a picture's address.
func (c change) Was() template.URL { return picture(c.Old) }

// Is is the new drawing as a picture's address.
func (c change) Is() template.URL { return picture(c.New) }

func picture(svg []byte) template.URL {
	return template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(svg))
}

var goldenTemplate = template.Must(template.New("page").Parse(`<!DOCTYPE html>
<html lang="en"><meta charset="utf-8"><title>Golden files, before and after</title>
<style>
body { font: 15px sans-serif; margin: 1em }
div { display: grid; grid-template-columns: 1fr 1fr; gap: 1em }
img { width: 100%; border: 1px solid #999 }
</style>
<h1>Golden files, before and after</h1>
{{range .}}<h2>{{.Name}}</h2>
<p>First at {{.Where}}</p>
{{if .Drawn}}<div><figure><figcaption>kept</figcaption>{{if .Old}}<img alt="kept" src="{{.Was}}">{{else}}none{{end}}</figure><figure><figcaption>now</figcaption><img alt="now" src="{{.Is}}"></figure></div>
{{end}}{{end}}</html>
`))

// write leaves a page of the changes where temporary files go, named after the
// test, and returns its path; "" when nothing has changed.
func (cs changes) write(t *testing.T) string {
	t.Helper()
	if len(cs) == 0 {
		return ""
	}
	path := filepath.Join(os.TempDir(), "oxturn-"+filepath.Base(t.Name())+".html")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := goldenTemplate.Execute(f, cs); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	return path
}
