package main

import (
	"context"
	"errors"
	"flag"
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"time"

	"oxturn/drawing/web/preview"
)

const watchHelp = `
Draws the job each time it is saved, and shows it in the browser: every sheet,
the take-off and the runs as tables, and the errors with their places over the
last good drawing. Ends with Ctrl-C.

  oxturn watch bath.toml
  oxturn watch bath.toml -o out      writes the files too, each time it is good

Flags:
  -o DIR                 write the files here as draw does (default: none)
  --port N               where to serve (default: a free port)
  --no-open              do not open the browser
  --poll TIME            how often to look at the file (default 300ms)
` + mannerHelp + `
The page is served to this machine alone (127.0.0.1), and needs no network.
Exit codes: 130 ended by Ctrl-C, 2 usage or no port.
`

// A vigil is one job being watched.
type vigil struct {
	*manner
	c      *console
	name   string
	poll   time.Duration
	server *preview.Server
	draw   *drawOrder // nil: no files are written
	drawn  bool       // once at least
}

func watch(ctx context.Context, c *console, args []string) int {
	fs := flag.NewFlagSet("watch", flag.ContinueOnError)
	v := &vigil{manner: mannerFlags(fs), c: c}
	dir := fs.String("o", "", "")
	port := fs.Uint("port", 0, "")
	noOpen := fs.Bool("no-open", false, "")
	fs.DurationVar(&v.poll, "poll", 300*time.Millisecond, "")
	names, code, ok := parse(c, "watch", fs, args)
	if !ok {
		return code
	}
	if !v.settle(c, "watch") {
		return exitUsage
	}
	names = orUsualJob(names)
	switch {
	case len(names) != 1 || names[0] == "-":
		c.say("oxturn watch: it takes one job file\nhint: oxturn watch JOB.toml")
		return exitUsage
	case !folderKnown(c, "watch", *dir):
		return exitUsage
	case v.poll < 10*time.Millisecond || *port > 65535:
		c.say("oxturn watch: --poll is 10ms at least, --port 65535 at most")
		return exitUsage
	}
	v.name = names[0]
	if *dir != "" {
		v.draw = &drawOrder{manner: v.manner, only: kinds(), dir: *dir, folder: &folder{dir: *dir}, brief: true}
	}
	return v.serve(ctx, *port, !*noOpen && isTerminal(c.Err))
}

// serve opens the page's port and watches until ctx ends.
func (v *vigil) serve(ctx context.Context, port uint, open bool) int {
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", port))
	if err != nil {
		v.c.say("oxturn watch: %v\nhint: another --port, or none for a free one", err)
		return exitUsage
	}
	if v.server, err = preview.New(l.Addr()); err != nil {
		v.c.say("oxturn watch: %v", err)
		return exitUsage
	}
	h := &http.Server{Handler: v.server, ReadHeaderTimeout: 10 * time.Second}
	defer h.Close()
	go h.Serve(l)
	address := "http://" + l.Addr().String() + "/"
	fmt.Fprintln(v.c.Out, address)
	v.c.say("watching %s; the page is at the address above; Ctrl-C ends", v.name)
	if open {
		openBrowser(address)
	}
	v.loop(ctx)
	return exitInterrupted
}

// loop draws at once and after each change, until ctx ends.
func (v *vigil) loop(ctx context.Context) {
	w := &watcher{names: []string{v.name}}
	for w.changed(ctx, v.poll) {
		v.build(ctx, w)
	}
	if v.draw != nil {
		v.draw.folder.close()
	}
}

// build draws the job as it is now and shows it.
func (v *vigil) build(ctx context.Context, w *watcher) {
	start := time.Now()
	s, err := readSource(ctx, v.c.In, v.name, "")
	if ctx.Err() != nil {
		return
	}
	if err != nil {
		w.follow(nil)
		v.c.say("%v; %s", err, v.shownStill())
		v.server.Show(preview.State{Job: v.name, Problems: []preview.Problem{{Severity: "error", Place: v.name, Message: err.Error()}}})
		return
	}
	opened := &opened{open: s.open, name: v.name}
	s.open = opened.read
	work, err := do(ctx, s, v.manner)
	w.follow(opened.stamps())
	var fault *faultError
	switch {
	case errors.As(err, &fault):
		v.c.say("oxturn: %s: %v", v.name, err)
		v.server.Show(preview.State{Job: v.name, Problems: []preview.Problem{{Severity: "error", Message: "this is a fault in oxturn, not in your job; please report it"}}})
	case err == nil:
		v.show(work, time.Since(start))
	}
}

// show puts the work on the page and a line on the terminal.
func (v *vigil) show(w *work, took time.Duration) {
	printReport(v.c, w.report, v.style)
	st, err := pageState(w)
	if err != nil {
		v.c.say("oxturn: %s: %v", v.name, err)
	}
	v.server.Show(st)
	if w.plan == nil {
		v.c.say("%s: not drawn; %s", v.name, v.shownStill())
		return
	}
	v.drawn = true
	v.c.say("%s: drawn in %.1f s: %s", v.name, took.Seconds(), briefLine(w.plan))
	if v.draw != nil && v.verdict(w.report) == exitOK {
		v.write(w)
	}
}

// shownStill says what the page shows of a job that cannot be drawn.
func (v *vigil) shownStill() string {
	if v.drawn {
		return "the last good drawing stays"
	}
	return "it will be once the file is mended and saved"
}

// write writes the files of a good drawing.
func (v *vigil) write(w *work) {
	files, err := outputs(w, v.draw.only)
	if err == nil {
		err = v.draw.folder.write(files)
	}
	if err != nil {
		v.c.say("oxturn: %s: nothing was written: %v", v.name, err)
	}
}

// openBrowser asks the system to show an address; that it cannot is no error,
// as the address is printed too.
func openBrowser(address string) {
	name, args := "xdg-open", []string{address}
	switch runtime.GOOS {
	case "darwin":
		name = "open"
	case "windows":
		name, args = "rundll32", []string{"url.dll,FileProtocolHandler", address}
	}
	cmd := exec.Command(name, args...)
	if cmd.Start() == nil {
		go cmd.Wait()
	}
}
