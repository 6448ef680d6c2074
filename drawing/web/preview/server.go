//go:build !js

package preview

import (
	"bytes"
	"embed"
	"fmt"
	"mime"
	"net"
	"net/http"
	"path"
	"slices"
	"strings"
	"sync"
	"time"

	"oxturn/drawing/web/viewer"
)

//go:embed page
var pageFiles embed.FS

// A Server serves the page, its state and its sheets to browsers on the same
// machine. It is an http.Handler.
type Server struct {
	hosts []string

	mu      sync.Mutex
	state   State
	readers map[chan struct{}]bool
	mux     *http.ServeMux
}

// mostReaders is how many pages may listen for changes at once.
const mostReaders = 50

// New returns a server for a listener's address. It answers only requests
// that name the loopback interface and this port as their host, so that no
// other site's page can read it by pointing a name of its own here.
func New(addr net.Addr) (*Server, error) {
	_, port, err := net.SplitHostPort(addr.String())
	if err != nil {
		return nil, fmt.Errorf("preview: %w", err)
	}
	s := &Server{readers: map[chan struct{}]bool{}, mux: http.NewServeMux()}
	for _, h := range []string{"127.0.0.1", "localhost", "::1"} {
		s.hosts = append(s.hosts, net.JoinHostPort(h, port))
	}
	s.mux.HandleFunc("GET /{$}", s.file("page.html"))
	s.mux.HandleFunc("GET /page/{name}", s.pageFile)
	s.mux.HandleFunc("GET /state", s.serveState)
	s.mux.HandleFunc("GET /sheet/{id}", s.serveSheet)
	s.mux.HandleFunc("GET /pdf", s.servePDF)
	s.mux.HandleFunc("GET /events", s.serveEvents)
	return s, nil
}

// Show makes st what every page shows. A state without sheets keeps the
// drawing of the last one that had some, marked stale.
func (s *Server) Show(st State) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.state = st.after(s.state)
	s.wake()
}

// Drawing tells every page that a newer state is being worked out.
func (s *Server) Drawing() {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.state.Busy = true
	s.state = s.state.listed().named()
	s.wake()
}

// wake has every page look at the state.
func (s *Server) wake() {
	for r := range s.readers {
		select {
		case r <- struct{}{}:
		default: // it has not taken the last one yet, and will see this state then
		}
	}
}

func (s *Server) current() State {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.state
}

// contentPolicy lets the page load from here and nowhere else, and be framed by
// nobody.
const contentPolicy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; connect-src 'self'; " +
	"base-uri 'none'; form-action 'none'; frame-ancestors 'none'"

// ServeHTTP answers one request.
func (s *Server) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	guard(w)
	if !slices.Contains(s.hosts, strings.ToLower(r.Host)) {
		http.Error(w, "this preview answers only to the address that oxturn printed", http.StatusMisdirectedRequest)
		return
	}
	s.mux.ServeHTTP(w, r)
}

// guard sets the headers of safety that every answer has.
func guard(w http.ResponseWriter) {
	h := w.Header()
	h.Set("Content-Security-Policy", contentPolicy)
	h.Set("X-Content-Type-Options", "nosniff")
	h.Set("Referrer-Policy", "no-referrer")
	h.Set("Cross-Origin-Resource-Policy", "same-origin")
	h.Set("Cache-Control", "no-store")
}

func (s *Server) file(name string) http.HandlerFunc {
	return func(w http.ResponseWriter, r *http.Request) {
		data, err := pageFiles.ReadFile("page/" + name)
		if err != nil {
			http.NotFound(w, r)
			return
		}
		send(w, r, mime.TypeByExtension(path.Ext(name)), data)
	}
}

func (s *Server) pageFile(w http.ResponseWriter, r *http.Request) {
	if name := r.PathValue("name"); name == "viewer.js" {
		send(w, r, mime.TypeByExtension(path.Ext(name)), []byte(viewer.Script))
		return
	}
	s.file(r.PathValue("name"))(w, r)
}

// send answers with data, or with a part of it.
func send(w http.ResponseWriter, r *http.Request, kind string, data []byte) {
	w.Header().Set("Content-Type", kind)
	http.ServeContent(w, r, "", time.Time{}, bytes.NewReader(data))
}

func (s *Server) serveState(w http.ResponseWriter, r *http.Request) {
	send(w, r, "application/json", s.current().body())
}

func (s *Server) serveSheet(w http.ResponseWriter, r *http.Request) {
	for _, sheet := range s.current().Sheets {
		if sheet.ID == r.PathValue("id") {
			send(w, r, "image/svg+xml", sheet.SVG)
			return
		}
	}
	http.NotFound(w, r)
}

func (s *Server) servePDF(w http.ResponseWriter, r *http.Request) {
	st := s.current()
	if st.PDF == nil {
		http.NotFound(w, r)
		return
	}
	w.Header().Set("Content-Disposition", mime.FormatMediaType("attachment", map[string]string{"filename": st.PDFName}))
	send(w, r, "application/pdf", st.PDF)
}

// heartbeat keeps a quiet connection from being taken for a dead one.
const heartbeat = 15 * time.Second

// serveEvents sends the version of every state, the present one first, as
// server-sent events: https://html.spec.whatwg.org/multipage/server-sent-events.html
func (s *Server) serveEvents(w http.ResponseWriter, r *http.Request) {
	wake, ok := s.listen()
	if !ok {
		http.Error(w, "too many pages are open", http.StatusServiceUnavailable)
		return
	}
	defer s.forget(wake)
	w.Header().Set("Content-Type", "text/event-stream")
	flush := http.NewResponseController(w)
	beat := time.NewTicker(heartbeat)
	defer beat.Stop()
	for {
		if _, err := fmt.Fprintf(w, "data: %s\n\n", s.current().Version); err != nil || flush.Flush() != nil {
			return
		}
		select {
		case <-wake:
		case <-beat.C:
		case <-r.Context().Done():
			return
		}
	}
}

func (s *Server) listen() (chan struct{}, bool) {
	s.mu.Lock()
	defer s.mu.Unlock()
	if len(s.readers) >= mostReaders {
		return nil, false
	}
	c := make(chan struct{}, 1)
	s.readers[c] = true
	return c, true
}

func (s *Server) forget(c chan struct{}) {
	s.mu.Lock()
	defer s.mu.Unlock()
	delete(s.readers, c)
}
