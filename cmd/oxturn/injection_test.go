package main

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/job"
)

// hostile are texts that break out of one format or another where they are
// not written with care.
var hostile = []string{
	`"><script>alert(1)</script>`,
	`' onload='alert(1)`,
	`]]><!ENTITY x SYSTEM "file:///etc/passwd">&x;`,
	`=HYPERLINK("http://evil.example")`,
	"@SUM(1)",
	"-1+cmd|' /C calc'!A0",
	`) /S /JavaScript /JS (app.alert(1)) /OpenAction (`,
	"../../../etc/up",
	`\u001b[2J\u001b]0;owned\u0007\u202egnp`,
	"javascript:alert(1)",
}

// quoted is a hostile text as TOML writes it.
func quoted(text string) string {
	q := `"` + strings.ReplaceAll(strings.ReplaceAll(text, `\`, `\\`), `"`, `\"`) + `"`
	return strings.ReplaceAll(q, `\\u`, `\u`)
}

// hostileJob has a hostile text in every free text of the job file, the first
// of them in the first.
func hostileJob(first int) string {
	next := func() string { first++; return quoted(hostile[(first-1)%len(hostile)]) }
	cable := next()
	text := strings.ReplaceAll(tinyJob, `"C10"`, cable)
	text = strings.Replace(text, `"Nook"`, next(), 1)
	var b strings.Builder
	b.WriteString("notes = [" + next() + "]\n" + text)
	b.WriteString("\n[[room.fixture]]\nkind = \"column\"\ndiameter = 60\nat = [600, 500]\nname = " + next() + "\n")
	for _, table := range []string{"job", "revision"} {
		header := map[string]string{"job": "\n[job]\n", "revision": "\n[[revision]]\n"}[table]
		b.WriteString(header)
		for _, k := range job.Keys() {
			if k.Parent() == table && k.Type == job.TypeText {
				b.WriteString(k.Name() + " = " + next() + "\n")
			}
		}
	}
	return b.String()
}

// TestInjection draws jobs made of hostile text: nothing of it becomes markup,
// a formula, an action, a path or a terminal's command. Each text comes to
// stand in several places.
func TestInjection(t *testing.T) {
	for first := 0; first < len(hostile); first += 3 {
		dir := t.TempDir()
		out := filepath.Join(dir, "a", "b", "out")
		name := filepath.Join(dir, "job.toml")
		if err := os.WriteFile(name, []byte(hostileJob(first)), 0o644); err != nil {
			t.Fatal(err)
		}
		printed, said, code := call(t, "draw", name, "-o", out)
		if code != exitOK || printed != "" {
			t.Fatalf("exit code %d: %s", code, said)
		}
		if strings.ContainsAny(said, "\x1b\x07\u202e") {
			t.Errorf("the terminal gets %q", said)
		}
		for path := range filesBelow(t, dir) {
			switch {
			case path == name:
			case filepath.Dir(path) != out:
				t.Errorf("a file outside the folder: %s", path)
			default:
				inspect(t, hostile[first], path)
			}
		}
	}
}

// filesBelow are all files below a folder.
func filesBelow(t *testing.T, dir string) map[string]bool {
	t.Helper()
	out := map[string]bool{}
	err := filepath.WalkDir(dir, func(path string, e os.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			out[path] = true
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// inspect looks at one output by its own format.
func inspect(t *testing.T, text, path string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	switch filepath.Ext(path) {
	case ".svg":
		inspectSVG(t, text, path, data)
	case ".csv":
		inspectCSV(t, text, data)
	case ".json":
		if !json.Valid(data) {
			t.Errorf("%s: %s is no JSON", text, path)
		}
	case ".html":
		inspectHTML(t, text, data)
	case ".pdf":
		inspectPDF(t, text, path, data)
	}
}

// inspectSVG allows the few elements that are written, and no attribute that
// runs or fetches anything.
func inspectSVG(t *testing.T, text, path string, data []byte) {
	t.Helper()
	d := xml.NewDecoder(bytes.NewReader(data))
	for {
		token, err := d.Token()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Errorf("%s: %s: %v", text, path, err)
			return
		}
		e, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		if !strings.Contains(" svg g path text title desc ", " "+e.Name.Local+" ") {
			t.Errorf("%s: %s has an element %s", text, path, e.Name.Local)
		}
		for _, a := range e.Attr {
			if n := a.Name.Local; strings.HasPrefix(n, "on") || n == "href" || n == "style" {
				t.Errorf("%s: %s has an attribute %s", text, path, n)
			}
		}
	}
}

// inspectCSV allows no cell that a spreadsheet takes for a formula, but for
// negative numbers.
func inspectCSV(t *testing.T, text string, data []byte) {
	t.Helper()
	rows, err := csv.NewReader(bytes.NewReader(data)).ReadAll()
	if err != nil {
		t.Errorf("%s: %v", text, err)
	}
	for _, row := range rows {
		for _, cell := range row {
			_, notNumber := strconv.ParseFloat(cell, 64)
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@\t\r") && notNumber != nil {
				t.Errorf("%s: a cell is a formula: %s", text, cell)
			}
		}
	}
}

// inspectHTML allows no script but the page's own: none of the texts may open
// or close one.
func inspectHTML(t *testing.T, text string, data []byte) {
	t.Helper()
	page := strings.ToLower(string(data))
	if opened, closed := strings.Count(page, "<script"), strings.Count(page, "</script"); opened != closed {
		t.Errorf("%s: the map opens %d scripts and closes %d", text, opened, closed)
	}
	page = htmlScript.ReplaceAllString(page, "") // in the page's own scripts a text is a string of JSON
	for _, bad := range []string{"<script>alert", " onload='alert", "<!entity", `href="javascript:`} {
		if strings.Contains(page, bad) {
			t.Errorf("%s: the map has %s", text, bad)
		}
	}
}

// htmlScript is a script of a page with what is in it.
var htmlScript = regexp.MustCompile(`(?s)<script.*?</script>`)

// pdfStream is what a PDF's pages, faces and files are in.
var pdfStream = regexp.MustCompile(`(?s)\nstream\r?\n.*?\nendstream`)

// pdfString is a string of a PDF, whose text is no part of its structure.
var pdfString = regexp.MustCompile(`\((?:[^()\\]|\\.)*\)`)

// inspectPDF allows no action in the document's structure.
func inspectPDF(t *testing.T, text, path string, data []byte) {
	t.Helper()
	if qpdf, err := exec.LookPath("qpdf"); err == nil {
		if out, err := exec.Command(qpdf, "--check", path).CombinedOutput(); err != nil {
			t.Errorf("%s: %s", text, out)
		}
		if plain, err := exec.Command(qpdf, "--qdf", "--object-streams=disable", path, "-").Output(); err == nil {
			data = plain
		}
	} else if os.Getenv("OXTURN_REQUIRE_TOOLS") != "" {
		t.Fatal("qpdf is not installed")
	}
	structure := pdfString.ReplaceAll(pdfStream.ReplaceAll(data, nil), nil)
	for _, bad := range []string{"/JavaScript", "/JS", "/OpenAction", "/Launch", "/URI", "/AA "} {
		if bytes.Contains(structure, []byte(bad)) {
			t.Errorf("%s: the PDF has %s", text, bad)
		}
	}
}

func TestPrintable(t *testing.T) {
	for text, want := range map[string]string{
		"Bath": "Bath", "Küche \"2\"": "Küche \"2\"", `a\b`: `a\b`, "\x1b[2J": `\x1b[2J`, "a\u202eb": `a\u202eb`,
		"": "",
	} {
		if got := printable(text); got != want {
			t.Errorf("printable(%q) = %q, want %q", text, got, want)
		}
	}
}
