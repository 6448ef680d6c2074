// Package headless lets tests try a page in a browser that shows no window.
package headless

import (
	"context"
	"errors"
	"os"
	"os/exec"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"

	"oxturn/layout/skip"
)

// programs are the browsers that are looked for, the first that is there is taken. The shell is
// the same engine without windows of its own: it starts in a quarter of the time, a tab of it too.
var programs = []string{"chromium-headless-shell", "headless-shell", "chromium", "chromium-browser", "google-chrome"}

// errNone is that no browser is installed.
var errNone = errors.New("chromium is not installed")

// Start starts a browser that leaves its litter in a folder and reaches nothing but
// this machine. Each context made of the one that it returns is a tab.
func Start(folder string, more ...chromedp.ExecAllocatorOption) (context.Context, context.CancelFunc, error) {
	program := ""
	for _, name := range programs {
		if p, err := exec.LookPath(name); err == nil && program == "" {
			program = p
		}
	}
	if program == "" {
		return nil, nil, errNone
	}
	options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox,
		chromedp.DisableGPU, chromedp.Env("TMPDIR="+folder),
		chromedp.Flag("disable-background-networking", true), chromedp.Flag("disable-component-update", true),
		chromedp.Flag("disable-sync", true),
		chromedp.Flag("host-resolver-rules", "MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"))
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(options, more...)...)
	ctx, end := chromedp.NewContext(alloc)
	return ctx, func() { end(); stop() }, nil
}

// For starts a browser for one test, which ends with it or when patience does. The test
// is left out where none is installed.
func For(t testing.TB, patience time.Duration, more ...chromedp.ExecAllocatorOption) context.Context {
	t.Helper()
	ctx, stop, err := Start(t.TempDir(), more...)
	if err != nil {
		skip.Test(t, skip.NoProgram, err)
	}
	t.Cleanup(stop)
	ctx, cancel := context.WithTimeout(ctx, patience)
	t.Cleanup(cancel)
	return ctx
}

// Preferring is a reader who asks for light or dark pages, without motion: colours that still
// change cannot be compared.
func Preferring(scheme string) chromedp.Action[chromedp.Void] {
	return chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme},
				{Name: "prefers-reduced-motion", Value: "reduce"}}})
		return err
	})
}

// Rules makes a checker of the page that is in view against the rules of axe-core (an open
// checker of the Web Content Accessibility Guidelines): it returns those that are broken, one a
// line. The test is left out where OXTURN_AXE names no script of axe-core.
func Rules(t testing.TB, ctx context.Context) func() string {
	t.Helper()
	axe, err := os.ReadFile(os.Getenv("OXTURN_AXE"))
	if err != nil {
		skip.Test(t, skip.NoProgram, "OXTURN_AXE names no script of axe-core")
	}
	return func() string {
		t.Helper()
		broken, err := chromedp.Run(ctx, chromedp.Evaluate[string]("typeof axe === 'undefined' && (() => {"+
			string(axe)+"})();"+`axe.run().then((r) => r.violations.map((v) => v.id + ": " +
				v.nodes.map((n) => n.target.join(" ") + ": " + n.failureSummary).join("; ")).join("\n"))`,
			chromedp.EvalAwaitPromise))
		if err != nil {
			t.Fatal(err)
		}
		return broken
	}
}
