package main

import (
	"encoding/base64"
	"net/http"
	"net/http/httptest"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"oxturn/drawing/web/page"
)

// TestFolderGoesOnWithoutANetwork opens the page from a web server once, and again when there is none any more.
func TestFolderGoesOnWithoutANetwork(t *testing.T) {
	s := photoSite(t)
	dir := t.TempDir()
	files, err := engineIn(t, s.page).Folder()
	if err != nil {
		t.Fatal(err)
	}
	for name, data := range files {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	web := httptest.NewServer(http.FileServer(http.Dir(dir)))
	t.Cleanup(web.Close)
	p := person{t: t, ctx: newTab(t)}
	at := strings.Replace(web.URL, "localhost", "127.0.0.1", 1) + "/"
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate(at)); err != nil {
		t.Fatal(err)
	}
	p.value(`void navigator.serviceWorker.ready.then(() => { window.keeps = true; })`)
	p.until(`window.keeps`)
	manifest := `(await (await fetch(document.querySelector("link[rel=manifest]").href)).json())`
	p.value(`void (async () => { window.installs = ` + manifest + `; })()`)
	p.until(`window.installs`)
	// what Chromium asks of a page that is to be installed (from memory)
	for _, key := range []string{"name", "start_url", "display", "icons"} {
		if p.value(`Boolean(installs.`+key+`?.length)`) != "true" {
			t.Errorf("the manifest has no %s", key)
		}
	}
	web.Close()
	if err := chromedp.Do(p.ctx, chromedp.Navigate(at+"?again")); err != nil {
		t.Fatal(err)
	}
	p.until(`location.search === "?again" && document.body.dataset.ready === "yes"`)
	t.Logf("without a network it is ready %s ms after it was asked for", p.value("Math.round(performance.now())"))
	p.drawn(func() { p.press("Start") })
	p.sees("#status", "up to date")
}

// engineIn takes the engine out of a page in one file.
func engineIn(t *testing.T, name string) page.Engine {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	part := func(name string) (text, rest string) {
		_, rest, _ = strings.Cut(string(data), name+`">`)
		text, rest, _ = strings.Cut(rest, "</script>")
		return text, rest
	}
	var packed []byte
	for text, rest := part(`class="engine`); text != ""; {
		piece, err := base64.StdEncoding.DecodeString(text)
		if err != nil {
			t.Fatalf("%s has no engine: %v", name, err)
		}
		packed = append(packed, piece...)
		_, rest, _ = strings.Cut(rest, `class="engine">`)
		text, rest, _ = strings.Cut(rest, "</script>")
	}
	if len(packed) == 0 {
		t.Fatalf("%s has no engine", name)
	}
	worker, _ := part(`id="worker`)
	support := worker[:strings.LastIndex(worker, "\n\"use strict\";\n")]
	return page.Engine{Packed: packed, Support: []byte(support)}
}
