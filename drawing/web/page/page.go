// Package page puts the whole tool into a page that needs no network and no server:
// the command compiled for browsers, and what a person uses it by.
//
//	one file:  oxturn.html, for a phone's or a laptop's own disk
//	a folder:  the same as files, for any web server; once seen it opens without a network
//
// The page asks the engine for everything that is worked out or drawn, so that it
// gives the same bytes as the command line; the job file is its only state.
package page

import (
	"bytes"
	"crypto/sha256"
	"embed"
	"encoding/base64"
	"encoding/hex"
	"encoding/json"
	"fmt"
	"maps"
	"slices"
	"strings"

	"oxturn/drawing/web/viewer"
	"oxturn/layout/language"
)

//go:embed src
var sourceFiles embed.FS

// editorBundle is the editor of the job's text, as drawing/web/bundle makes it.
//
//go:embed editor/bundle.js
var editorBundle string

// EditorLicences are the terms of the works that the editor is made of.
//
//go:embed editor/licences.txt
var EditorLicences []byte

// An Engine is the command compiled for browsers.
type Engine struct {
	Packed  []byte // the program, by gzip
	Support []byte // the Go toolchain's script that runs it
}

// pageScripts are the page's own, in the order in which they build on one another.
var pageScripts = []string{"words.js", "base.js", "sheets.js", "room.js", "site.js", "photos.js", "pointing.js",
	"plan.js", "placing.js", "main.js"}

// workerScripts are those of the engine's worker, after its support.
var workerScripts = []string{"files.js", "worker.js"}

// sourceFile is one of the page's own files.
func sourceFile(name string) string {
	data, err := sourceFiles.ReadFile("src/" + name)
	if err != nil {
		panic(err) // the files are built in
	}
	return string(data)
}

const strict = "\"use strict\";\n"

// joined is several scripts as one, strict from its first line on.
func joined(scripts ...string) string {
	var b strings.Builder
	b.WriteString(strict)
	for _, s := range scripts {
		b.WriteString(strings.Replace(s, strict, "", 1))
	}
	return b.String()
}

// sources are some of the page's own files.
func sources(names ...string) (out []string) {
	for _, n := range names {
		out = append(out, sourceFile(n))
	}
	return out
}

// pageScript is what the page runs, in the form that it is given in.
func pageScript(form string) string {
	own := sources(append([]string{form}, pageScripts...)...)
	script := joined(append([]string{editorBundle, viewer.Script}, own...)...)
	return strings.Replace(script, "CATALOGUES", catalogues(), 1)
}

// catalogues are what the page says in each language but English.
func catalogues() string {
	all := map[string]map[string]string{}
	for _, tag := range language.Tags() {
		if l, _ := language.Named(tag); l != language.English {
			all[tag] = l.OnPage()
		}
	}
	words, err := json.Marshal(all)
	if err != nil {
		panic(err) // texts alone
	}
	return string(words)
}

func (e Engine) worker() string {
	return string(e.Support) + "\n" + joined(sources(workerScripts...)...)
}

// contentPolicy lets the page load nothing: what may run is what it holds itself.
const contentPolicy = "default-src 'none'; script-src %s 'wasm-unsafe-eval'; worker-src %s; style-src %s; " +
	"img-src 'self' data: blob:; connect-src %s; manifest-src 'self'; base-uri 'none'; form-action 'none'"

// OneFile is the page as one HTML file.
func (e Engine) OneFile() ([]byte, error) {
	script := pageScript("onefile.js")
	style := sourceFile("page.css")
	worker := e.worker()
	if strings.Contains(strings.ToLower(script+worker), "</script") {
		return nil, fmt.Errorf("page: a script holds what would end it early")
	}
	scripts := "<script type=\"text/plain\" id=\"worker\">" + worker + "</script>\n" +
		"<script>" + script + "</script>\n" + e.pieces()
	allowed := fmt.Sprintf(contentPolicy, digest(script), "blob:", digest(style), "'none'")
	return html(allowed, "<link rel=\"icon\" href=\""+dataIcon()+"\">\n<style>"+style+"</style>\n", scripts), nil
}

// aPiece of the engine is how much of it a page in one file has in an element of its own. In one for
// all, a browser would copy what it has read for every bit more, and nothing could be compiled before its end.
const aPiece = 192 << 10

// pieces are the engine as elements of a page.
func (e Engine) pieces() string {
	var b strings.Builder
	for piece := range slices.Chunk(e.Packed, aPiece) {
		fmt.Fprintf(&b, "<script type=\"text/plain\" class=\"engine\">%s</script>\n",
			base64.StdEncoding.EncodeToString(piece))
	}
	return b.String()
}

// Folder is the page as files by name; index.html is where it begins.
func (e Engine) Folder() (map[string][]byte, error) {
	files := map[string][]byte{
		"page.css":             []byte(sourceFile("page.css")),
		"page.js":              []byte(pageScript("folder.js")),
		"worker.js":            []byte(e.worker()),
		"engine.bin":           e.Packed,
		"icon.svg":             []byte(sourceFile("icon.svg")),
		"manifest.webmanifest": []byte(sourceFile("manifest.webmanifest")),
	}
	head := "<link rel=\"manifest\" href=\"manifest.webmanifest\">\n<link rel=\"icon\" href=\"icon.svg\">\n" +
		"<link rel=\"stylesheet\" href=\"page.css\">\n"
	files["index.html"] = html(fmt.Sprintf(contentPolicy, "'self'", "'self'", "'self'", "'self'"), head,
		"<script src=\"page.js\"></script>\n")
	names, err := json.Marshal(append(slices.Sorted(maps.Keys(files)), "./"))
	if err != nil {
		return nil, err
	}
	offline := strings.NewReplacer("VERSION", version(files), "PARTS", string(names))
	files["offline.js"] = []byte(offline.Replace(sourceFile("offline.js")))
	return files, nil
}

func html(policy, head, scripts string) []byte {
	return []byte(strings.NewReplacer("{POLICY}", policy, "<!--HEAD-->\n", head, "<!--SCRIPTS-->\n", scripts).
		Replace(sourceFile("page.html")))
}

// digest names a script or a style in a content security policy by what it holds:
// https://www.w3.org/TR/CSP3/#grammardef-hash-source
func digest(text string) string {
	sum := sha256.Sum256([]byte(text))
	return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
}

func dataIcon() string {
	return "data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString([]byte(sourceFile("icon.svg")))
}

// version changes with any of the files.
func version(files map[string][]byte) string {
	h := sha256.New()
	for _, name := range slices.Sorted(maps.Keys(files)) {
		h.Write([]byte(name))
		h.Write(bytes.TrimSpace(files[name]))
	}
	return "oxturn-" + hex.EncodeToString(h.Sum(nil)[:8])
}
