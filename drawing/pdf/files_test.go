package pdf

import (
	"bytes"
	"encoding/json"
	"encoding/xml"
	"io"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/internal/outside"
	"oxturn/drawing/internal/specimen"
)

// source is what a document carries in these tests.
func source() []File {
	return []File{
		{"bath.toml", "application/toml", "the job file", "Source", []byte("units = \"mm\"\n# endstream\nendobj\n")},
		{"bäd (1).csv", "text/csv", "prices (Ω)", "Source", bytes.Repeat([]byte("code,price\r\n"), 400)},
		{"empty.json", "application/json", "", "Data", nil},
		{"bytes.bin", "application/octet-stream", "all there are", "Supplement", everyByte()},
	}
}

func everyByte() (out []byte) {
	for i := range 512 {
		out = append(out, byte(i))
	}
	return out
}

func carrying(t testing.TB, files []File) []byte {
	t.Helper()
	var b bytes.Buffer
	about := info
	about.Language, about.Files = "en", files
	if err := Write(&b, []*drawing.Sheet{specimen.Sheet()}, about); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

// Two programs give every file back as it was, and the library too.
func TestFilesComeBackWhole(t *testing.T) {
	doc := outside.File(t, "in.pdf", carrying(t, source()))
	outside.Run(t, "qpdf", "--check", doc)
	dir := t.TempDir()
	outside.Run(t, "pdfdetach", "-saveall", "-o", dir, doc)
	listed := string(outside.Run(t, "qpdf", "--list-attachments", "--verbose", doc))
	for _, f := range source() {
		got, err := os.ReadFile(filepath.Join(dir, f.Name))
		if err != nil || !bytes.Equal(got, f.Data) {
			t.Errorf("pdfdetach: %s has %d bytes, want %d; %v", f.Name, len(got), len(f.Data), err)
		}
		if got := outside.Run(t, "qpdf", "--show-attachment="+plainName(f.Name), doc); !bytes.Equal(got, f.Data) {
			t.Errorf("qpdf: %s has %d bytes, want %d", f.Name, len(got), len(f.Data))
		}
		for _, want := range []string{f.Name, f.About, f.Type} {
			if !strings.Contains(listed, want) {
				t.Errorf("qpdf does not list %q:\n%s", want, listed)
			}
		}
	}
	read(t, carrying(t, source()), source())
}

// read holds that Embedded reads these files.
func read(t *testing.T, doc []byte, want []File) {
	t.Helper()
	got, err := Embedded(doc, 1<<20)
	if err != nil {
		t.Fatal(err)
	}
	for i := range got {
		got[i].Type = want[min(i, len(want)-1)].Type // what is in a file tells that
	}
	if !slices.EqualFunc(got, want, func(a, b File) bool {
		return a.Name == b.Name && a.About == b.About && a.Relation == b.Relation && bytes.Equal(a.Data, b.Data)
	}) {
		t.Errorf("read %v, want %v", got, want)
	}
}

// Other programs write documents anew: in streams of objects, for the web, under a
// lock that anyone opens. The files are still there.
func TestFilesAreReadFromWhatOthersWrote(t *testing.T) {
	doc := outside.File(t, "in.pdf", carrying(t, source()))
	for name, args := range map[string][]string{
		"object streams": {"--object-streams=generate"}, "for the web": {"--linearize"}, "laid open": {"--qdf"},
		"locked": {"--encrypt", "", "owner", "256", "--"},
	} {
		out := filepath.Join(t.TempDir(), "out.pdf")
		outside.Run(t, "qpdf", slices.Concat([]string{doc, out}, args)...)
		data, err := os.ReadFile(out)
		if err != nil {
			t.Fatal(err)
		}
		t.Run(name, func(t *testing.T) { read(t, data, source()) })
	}
	out := filepath.Join(t.TempDir(), "secret.pdf")
	outside.Run(t, "qpdf", doc, out, "--encrypt", "user", "owner", "256", "--")
	data, err := os.ReadFile(out)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Embedded(data, 1<<20); err == nil || !strings.Contains(err.Error(), "password") {
		t.Errorf("with a password: %v", err)
	}
}

// What says that it is small and is not must be given up early.
func TestEmbeddedKeepsToItsLimit(t *testing.T) {
	doc := carrying(t, []File{{"bomb", "text/plain", "", "Source", make([]byte, 8<<20)}})
	if len(doc) > 200_000 {
		t.Fatalf("it has %d bytes", len(doc))
	}
	if _, err := Embedded(doc, 1<<20); err == nil {
		t.Error("8 MiB were read where 1 was allowed")
	}
	two := carrying(t, []File{{"a", "text/plain", "", "Source", make([]byte, 600<<10)},
		{"b", "text/plain", "", "Source", make([]byte, 600<<10)}})
	if _, err := Embedded(two, 1<<20); err == nil {
		t.Error("two files are larger than the limit together")
	}
	for _, bad := range []string{"", "%PDF-", "%PDF-1.7\n%%EOF\n", "units = 1"} {
		if f, err := Embedded([]byte(bad), 1<<20); err == nil {
			t.Errorf("%q has %v", bad, f)
		}
	}
	read(t, carrying(t, nil), nil)
}

// FuzzEmbedded changes a document at a place: it is read or refused, and no more
// than the limit comes of it.
func FuzzEmbedded(f *testing.F) {
	doc := carrying(f, source())
	f.Add(100, []byte("/AF"))
	f.Add(len(doc)-200, []byte("/Root 9 0 R"))
	f.Add(0, []byte("%PDF-1.4"))
	f.Fuzz(func(t *testing.T, at int, with []byte) {
		broken := slices.Clone(doc)
		if at >= 0 && at < len(broken) {
			copy(broken[at:], with)
		}
		const limit = 1 << 16
		files, err := Embedded(broken, limit)
		n := 0
		for _, f := range files {
			n += len(f.Data)
			if strings.ContainsAny(f.Name, `/\`) && f.Name != "/" {
				t.Errorf("a file is called %q", f.Name)
			}
		}
		if err == nil && n > limit {
			t.Errorf("%d bytes came of it", n)
		}
	})
}

// Names that lead elsewhere lose the way.
func TestEmbeddedNamesAreNamesOnly(t *testing.T) {
	for name, want := range map[string]string{"../../etc/passwd": "passwd", `..\..\job.toml`: "job.toml", "/": "/",
		"a/": "a"} {
		got, err := Embedded(carrying(t, []File{{name, "text/plain", "", "Source", nil}}), 1<<20)
		if err != nil || got[0].Name != want {
			t.Errorf("%q is read as %v, %v", name, got, err)
		}
	}
}

// The metadata is XML that says what the document's own information says, and that is
// where programs look for language and title.
func TestMetadata(t *testing.T) {
	about := Info{Title: `Bath <1> & "2"`,
		Author: "Ångström", Subject: "plan 7KF-4RP", Creator: "oxturn", Language: "en"}
	var b bytes.Buffer
	if err := Write(&b, []*drawing.Sheet{specimen.Sheet()}, about); err != nil {
		t.Fatal(err)
	}
	doc := outside.File(t, "in.pdf", b.Bytes())
	var x struct {
		Title   string `xml:"RDF>Description>title>Alt>li"`
		Creator string `xml:"RDF>Description>creator>Seq>li"`
		About   string `xml:"RDF>Description>description>Alt>li"`
		Tool    string `xml:"RDF>Description>CreatorTool"`
		Tongue  string `xml:"RDF>Description>language>Bag>li"`
	}
	packet := outside.Run(t, "pdfinfo", "-meta", doc)
	d := xml.NewDecoder(bytes.NewReader(packet))
	if err := d.Decode(&x); err != nil && err != io.EOF {
		t.Fatalf("%v\n%s", err, packet)
	}
	if x.Title != about.Title || x.Creator != about.Author || x.About != about.Subject || x.Tool != about.Creator ||
		x.Tongue != about.Language {
		t.Errorf("the metadata say %+v", x)
	}
	var read struct {
		Parts []json.RawMessage `json:"qpdf"`
	}
	if err := json.Unmarshal(outside.Run(t, "qpdf", "--json", "--json-key=qpdf", doc), &read); err != nil {
		t.Fatal(err)
	}
	var objects map[string]struct {
		Value map[string]any `json:"value"`
	}
	if err := json.Unmarshal(dictionariesOnly(t, read.Parts[1]), &objects); err != nil {
		t.Fatal(err)
	}
	trailer := objects["trailer"].Value
	if trailer["/ID"] == nil {
		t.Error("the document has no name of its own")
	}
	catalogue := objects["obj:"+trailer["/Root"].(string)].Value
	if catalogue["/Lang"] != "u:en" || catalogue["/ViewerPreferences"].(map[string]any)["/DisplayDocTitle"] != true {
		t.Errorf("the catalogue says %v", catalogue)
	}
	if _, ok := objects["obj:"+trailer["/Info"].(string)]; !ok {
		t.Error("the information is no object of its own")
	}
}

// dictionariesOnly drops what is no dictionary of the objects that qpdf lists.
func dictionariesOnly(t *testing.T, all []byte) []byte {
	t.Helper()
	var objects map[string]map[string]json.RawMessage
	if err := json.Unmarshal(all, &objects); err != nil {
		t.Fatal(err)
	}
	for name, o := range objects {
		if !bytes.HasPrefix(o["value"], []byte("{")) {
			delete(objects, name)
		}
	}
	out, err := json.Marshal(objects)
	if err != nil {
		t.Fatal(err)
	}
	return out
}
