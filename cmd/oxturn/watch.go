//go:build !js

package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os/exec"
	"runtime"
	"time"

	"oxturn/drawing/web/preview"
	"oxturn/layout/job"
)

const watchHelp = `
Draws the job each time it is saved, and shows it in the browser: every sheet,
the take-off and the runs as tables, and the errors with their places over the
last good drawing. Ends with Ctrl-C.

  oxturn watch bath.toml
  oxturn watch bath.toml -o out      writes the files too, each time it is good
  oxturn watch bath.toml --lan       lets a phone in the house follow

Flags:
  -o DIR                 write the files here as draw does (default: none)
  --port N               where to serve (default: a free port)
  --no-open              do not open the browser
  --lan                  let other devices in this network follow: asks first,
                         then shows a code for each that is to be let in
  --poll TIME            how often to look at the file (default 300ms)
` + jobFlagsHelp + `
The page is served to this machine alone (127.0.0.1), and needs no network. With
--lan it is served to the devices that were shown a code as well: each code lets
one in, to look and not to change. That is not encrypted.
Exit codes: 130 ended by Ctrl-C, 2 usage or no port.
`

// A watchOrder is what the flags of watch ask for.
type watchOrder struct {
	dir    string
	port   uint
	noOpen bool
	lan    bool
	poll   time.Duration
}

// highestPort is the last port there is.
const highestPort = 65535

// pollEvery is how often a file is looked at where it is not said.
const pollEvery = 300 * time.Millisecond

func (o *watchOrder) flags(f *verbFlags) {
	f.folder(&o.dir)
	f.UintVar(&o.port, "port", 0, "")
	f.BoolVar(&o.noOpen, "no-open", false, "")
	f.BoolVar(&o.lan, "lan", false, "")
	f.DurationVar(&o.poll, "poll", pollEvery, "")
	f.hold(func() error {
		if o.poll < 10*time.Millisecond || o.port > highestPort {
			return errors.New("--poll is 10ms at least, --port 65535 at most")
		}
		return nil
	})
}

func (o *watchOrder) run(ctx context.Context, c *commandLine) int {
	s := &session{commandLine: c, name: c.args[0], poll: o.poll}
	if o.dir != "" {
		s.folder = &folder{dir: o.dir}
	}
	if o.lan {
		s.reached = lanAddresses()
	}
	return s.serve(ctx, o, !o.noOpen && isTerminal(c.Err))
}

// A session is one job being watched.
type session struct {
	*commandLine
	name   string
	poll   time.Duration
	server *preview.Server
	folder *folder  // nil: no files are written
	drawn  bool     // once at least
	before *job.Job // as it was drawn last

	reached []lanAddress  // where other devices may follow
	gate    *preview.Gate // nil: they may not
}

// serve opens the page's port and watches until ctx ends.
func (s *session) serve(ctx context.Context, o *watchOrder, open bool) int {
	if o.lan && len(s.reached) == 0 {
		return s.fail(errors.New("this machine has no address in a network near it; join one first"))
	}
	l, err := net.Listen("tcp", fmt.Sprintf("127.0.0.1:%d", o.port))
	if err != nil {
		return s.fail(fmt.Errorf("%w\nhint: another --port, or none for a free one", err))
	}
	if s.server, err = preview.New(l.Addr()); err != nil {
		return s.fail(err)
	}
	h := &http.Server{Handler: s.server, ReadHeaderTimeout: 10 * time.Second}
	defer h.Close()
	go h.Serve(l)
	address := "http://" + l.Addr().String() + "/"
	fmt.Fprintln(s.Out, address)
	if o.lan {
		end, err := s.lan(ctx, s.reached)
		if err != nil {
			return s.fail(err)
		}
		defer end()
	}
	s.say("watching %s; the page is at the address above; Ctrl-C ends", s.name)
	if open {
		openBrowser(address)
	}
	s.loop(ctx)
	return exitInterrupted
}

// loop draws at once and after each change, until ctx ends.
func (s *session) loop(ctx context.Context) {
	w := &watcher{names: []string{s.name}}
	for w.changed(ctx, s.poll) {
		s.build(ctx, w)
	}
	if s.folder != nil {
		s.folder.close()
	}
}

// build draws the job as it is now and shows it.
func (s *session) build(ctx context.Context, w *watcher) {
	start := time.Now()
	s.server.Drawing()
	src, err := readSource(ctx, s.In, s.name, "")
	if ctx.Err() != nil {
		return
	}
	if err != nil {
		w.follow(nil)
		s.say("%v; %s", err, s.shownStill())
		s.server.Show(preview.State{Job: s.name, Problems: []preview.Problem{{Severity: "error", Place: s.name,
			Message: err.Error()}}})
		return
	}
	opened := &opened{open: src.open, name: s.name}
	src.open = opened.read
	line := waiting(s.console, s.name+": drawing")
	work, err := do(ctx, src, workOptions{timeLimit: s.timeLimit, before: s.before})
	line.end()
	w.follow(opened.stamps())
	var fault *faultError
	switch {
	case errors.As(err, &fault):
		s.say("oxturn: %s: %v", s.name, err)
		s.server.Show(preview.State{Job: s.name,
			Problems: []preview.Problem{{Severity: "error",
				Message: "this is a fault in oxturn, not in your job; please report it"}}})
	case err == nil:
		s.show(work, time.Since(start))
	}
}

// show puts the work on the page and a line on the terminal.
func (s *session) show(w *work, took time.Duration) {
	printReport(s.console, w.report, s.style)
	st, err := pageState(w)
	if err != nil {
		s.say("oxturn: %s: %v", s.name, err)
	}
	s.server.Show(st)
	if w.plan == nil {
		s.say("%s: not drawn; %s", s.name, s.shownStill())
		return
	}
	s.drawn, s.before = true, w.job
	s.say("%s: drawn in %.1f s: %s", s.name, took.Seconds(), briefLine(w.plan))
	if s.folder != nil && s.verdict(w.report) == exitOK {
		s.write(w)
	}
}

// shownStill says what the page shows of a job that cannot be drawn.
func (s *session) shownStill() string {
	if s.drawn {
		return "the last good drawing stays"
	}
	return "it will be once the file is mended and saved"
}

// write writes the files of a good drawing.
func (s *session) write(w *work) {
	files, err := outputs(w, kinds())
	if err == nil {
		err = s.folder.write(files)
	}
	if err != nil {
		s.say("oxturn: %s: nothing was written: %v", s.name, err)
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
