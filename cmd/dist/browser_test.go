package main

import (
	"context"
	"os"
	"path/filepath"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"

	"oxturn/drawing/web/headless"
	"oxturn/layout/skip"
)

// A browser is what all walks through the page are made in.
type browser struct {
	ctx    context.Context
	none   error           // that none is installed
	opened context.Context // the tab with the page that one walk leaves to the next, nil for none
	close  context.CancelFunc
}

// closed closes it.
func (b *browser) closed() {
	if b.opened != nil {
		b.close()
		b.opened = nil
	}
}

// endBrowser ends it, if it was started.
var endBrowser = func() {}

var oneBrowser = sync.OnceValue(func() *browser {
	ctx, stop, err := headless.Start(workshop)
	if err == nil {
		endBrowser = stop
		err = chromedp.Do(ctx, chromedp.Navigate("about:blank"))
	}
	return &browser{ctx: ctx, none: err}
})

func browserFor(t *testing.T) *browser {
	t.Helper()
	b := oneBrowser()
	if b.none != nil {
		skip.Test(t, skip.NoProgram, b.none)
	}
	return b
}

// newTab is a tab for one test.
func newTab(t *testing.T) context.Context {
	t.Helper()
	ctx, stop := chromedp.NewContext(browserFor(t).ctx)
	t.Cleanup(stop)
	ctx, cancel := context.WithTimeout(ctx, 20*time.Minute)
	t.Cleanup(cancel)
	return ctx
}

// atThePage is a person at a page of one test's own, with nothing kept of the tests before.
func atThePage(t *testing.T, file string) person {
	t.Helper()
	p := person{t: t, ctx: newTab(t)}
	b := browserFor(t)
	b.closed() // it has the job
	b.forget(t, p.ctx)
	p.opens(file)
	return p
}

// forget leaves nothing that earlier pages kept.
func (b *browser) forget(t *testing.T, ctx context.Context) {
	t.Helper()
	blank := filepath.Join(workshop, "blank.html")
	if err := os.WriteFile(blank, []byte("<!doctype html><title>blank</title>"), 0o666); err != nil {
		t.Fatal(err)
	}
	const forget = `(async () => { localStorage.clear(); for (const d of await indexedDB.databases()) ` +
		`await new Promise((y, n) => Object.assign(indexedDB.deleteDatabase(d.name), ` +
		`{ onsuccess: y, onerror: n })); return "nothing"; })()`
	if err := chromedp.Do(ctx, chromedp.Navigate("file://"+blank)); err != nil {
		t.Fatal(err)
	}
	if _, err := chromedp.Run(ctx, chromedp.Evaluate[string](forget, chromedp.EvalAwaitPromise)); err != nil {
		t.Fatalf("what was kept could not be forgotten: %v", err)
	}
}

// atTheOpenPage is a person at the page as the test before left it, or at a new one: to compile the
// engine and its drawing anew takes most of a test's time. What a test needs of the page it
// brings about by itself: its job, its part of the page.
func atTheOpenPage(t *testing.T, file string) person {
	t.Helper()
	b := browserFor(t)
	if b.opened == nil {
		b.opened, b.close = chromedp.NewContext(b.ctx)
		b.forget(t, b.opened)
		person{t: t, ctx: b.opened}.opens(file)
	}
	p := person{t: t, ctx: b.opened}
	t.Cleanup(func() {
		if t.Failed() {
			b.closed() // who knows what it shows
		}
	})
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844)); err != nil {
		t.Fatal(err)
	}
	p.value("window.confirm = () => true")
	p.press("Files")
	return p
}

// opens opens the page as a phone shows it.
func (p person) opens(file string) {
	p.t.Helper()
	if err := chromedp.Do(p.ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate("file://"+file)); err != nil {
		p.t.Fatal(err)
	}
	p.until(`document.body.dataset.ready === "yes"`)
}

// runsBefore has a script run in every page that is opened from then on.
func runsBefore(script string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, page.AddScriptToEvaluateOnNewDocument,
			page.AddScriptToEvaluateOnNewDocumentParams{Source: script})
		return err
	})
}
