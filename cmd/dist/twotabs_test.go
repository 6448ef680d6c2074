package main

import (
	"context"
	"strings"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

// twoTabs opens the job once more: the second tab says so and keeps nothing until it is told to,
// and what either has changed is there in the end.
func (p person) twoTabs(s site) {
	p.t.Helper()
	p.open(s, s.at("hall.toml"))
	ctx, stop := chromedp.NewContext(p.ctx)
	p.t.Cleanup(stop)
	second := person{t: p.t, ctx: ctx}
	if err := chromedp.Do(ctx, chromedp.EmulateViewport(390, 844), chromedp.Navigate("file://"+s.page)); err != nil {
		p.t.Fatal(err)
	}
	second.until(`document.body.dataset.ready === "yes" && document.body.dataset.drawn`)
	second.sees("#second", "open in another tab")
	second.pictured("10-second")
	title := func(who person, to string) {
		p.t.Helper()
		who.value(`void job.change(job.text.replace(/title = ".*"/, 'title = "` + to + `"'))`)
	}
	keptTitle := func() string { return p.value(`/title = "(.*)"/.exec(kept.get("job").files["hall.toml"])[1]`) }
	title(second, "Second")
	title(p, "First")
	if got := keptTitle(); got != "First" {
		p.t.Errorf("the title that is kept is %q", got)
	}
	second.value(`document.getElementById("take").click()`)
	second.until(`document.getElementById("second").hidden`)
	second.until(`job.text.includes("Second") && job.past.at(-1)?.includes("First")`)
	p.until(`!document.getElementById("second").hidden`)
	if got := keptTitle(); got != "Second" {
		p.t.Errorf("the title that is kept is %q once the second tab has taken over", got)
	}
	title(p, "Late")
	if got := keptTitle(); got != "Second" {
		p.t.Errorf("the tab that lost the job still keeps it: %q", got)
	}
	if err := chromedp.Do(ctx, chromedp.Func(func(ctx context.Context, t *chromedp.Target) error {
		_, err := cdp.Call(ctx, t, page.Close, cdp.Empty{})
		return err
	})); err != nil && !strings.Contains(err.Error(), "closed") {
		p.t.Logf("closing the second tab: %v", err)
	}
	p.until(`document.getElementById("second").hidden && job.text.includes("Late")`)
	p.until(`job.past.at(-1)?.includes("Second")`)
}
