package preview

import (
	"bufio"
	"encoding/json"
	"io"
	"net"
	"net/http"
	"net/http/httptest"
	"strings"
	"testing"
)

// serve starts a server as oxturn does.
func serve(t *testing.T) (*Server, *httptest.Server) {
	t.Helper()
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	s, err := New(l.Addr())
	if err != nil {
		t.Fatal(err)
	}
	h := &httptest.Server{Listener: l, Config: &http.Server{Handler: s}}
	h.Start()
	t.Cleanup(h.Close)
	return s, h
}

func good() State {
	return State{Job: "bath.toml", Sheets: []Sheet{{ID: "plan", Title: "Plan", SVG: []byte("<svg/>")}},
		PDF: []byte("%PDF"), PDFName: "bath.pdf"}
}

func get(t *testing.T, method, url, host string) (*http.Response, string) {
	t.Helper()
	r, err := http.NewRequest(method, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	if host != "" {
		r.Host = host
	}
	answer, err := http.DefaultClient.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer, string(data)
}

// TestHosts answers to this machine's own names alone: a page of another site
// that points its name here must read nothing.
func TestHosts(t *testing.T) {
	s, h := serve(t)
	s.Show(good())
	_, port, _ := net.SplitHostPort(h.Listener.Addr().String())
	for host, want := range map[string]int{
		"127.0.0.1:" + port: 200, "localhost:" + port: 200, "LOCALHOST:" + port: 200, "[::1]:" + port: 200,
		"evil.example:" + port: 421, "evil.example": 421, "127.0.0.1": 421, "127.0.0.1:1": 421,
		"127.0.0.1.evil.example:" + port: 421,
	} {
		for _, path := range []string{"/", "/state", "/sheet/plan", "/pdf", "/page/page.js"} {
			answer, body := get(t, "GET", h.URL+path, host)
			if answer.StatusCode != want {
				t.Errorf("%s as %s: %d, want %d", path, host, answer.StatusCode, want)
			}
			if want != 200 && strings.Contains(body, "bath") {
				t.Errorf("%s as %s: the refusal shows the job: %s", path, host, body)
			}
		}
	}
}

// TestAnswers holds every address to its kind and to the headers of safety.
func TestAnswers(t *testing.T) {
	s, h := serve(t)
	s.Show(good())
	for _, c := range []struct {
		method, path, kind string
		code               int
	}{
		{"GET", "/", "text/html", 200}, {"GET", "/page/page.js", "javascript", 200},
		{"GET", "/page/page.css", "text/css", 200},
		{"GET", "/page/good.svg", "image/svg+xml", 200}, {"GET", "/state", "application/json", 200},
		{"GET", "/sheet/plan", "image/svg+xml", 200},
		{"GET", "/pdf", "application/pdf", 200}, {"GET", "/sheet/other", "", 404}, {"GET", "/page/..%2fserver.go", "",
			404}, {"GET", "/etc/passwd", "", 404},
		{"POST", "/state", "", 405}, {"PUT", "/sheet/plan", "", 405}, {"DELETE", "/", "", 405},
	} {
		answer, _ := get(t, c.method, h.URL+c.path, "")
		if answer.StatusCode != c.code || c.code == 200 && !strings.Contains(answer.Header.Get("Content-Type"),
			c.kind) {
			t.Errorf("%s %s: %d %s", c.method, c.path, answer.StatusCode, answer.Header.Get("Content-Type"))
		}
		if got := answer.Header.Get("Content-Security-Policy"); !strings.HasPrefix(got,
			"default-src 'none'; script-src 'self'") || strings.Contains(got, "unsafe") {
			t.Errorf("%s %s: policy %q", c.method, c.path, got)
		}
		if answer.Header.Get("X-Content-Type-Options") != "nosniff" ||
			answer.Header.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s %s: headers %v", c.method, c.path, answer.Header)
		}
	}
	if answer, _ := get(t, "GET", h.URL+"/pdf", ""); answer.Header.Get(
		"Content-Disposition") != "attachment; filename=bath.pdf" {
		t.Errorf("the PDF comes as %q", answer.Header.Get("Content-Disposition"))
	}
}

// TestPageHasNoInlineCode keeps the page to what its policy allows.
func TestPageHasNoInlineCode(t *testing.T) {
	data, err := pageFiles.ReadFile("page/page.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, bad := range []string{" style=", " onclick=", " onload=", "<style", "javascript:", "http://", "https://",
		"//"} {
		if strings.Contains(string(data), bad) {
			t.Errorf("the page has %q", bad)
		}
	}
}

func state(t *testing.T, h *httptest.Server) State {
	t.Helper()
	_, body := get(t, "GET", h.URL+"/state", "")
	var st State
	if err := json.Unmarshal([]byte(body), &st); err != nil {
		t.Fatal(err)
	}
	return st
}

// TestLastGoodDrawing stays, marked stale, until the next good one.
func TestLastGoodDrawing(t *testing.T) {
	s, h := serve(t)
	s.Show(State{Job: "bath.toml", Problems: []Problem{{Severity: "error"}}})
	if st := state(t, h); st.Stale || len(st.Sheets) != 0 {
		t.Errorf("before any drawing: %+v", st)
	}
	if _, body := get(t, "GET", h.URL+"/state", ""); strings.Contains(strings.ReplaceAll(body, `"notes":null`, ""),
		"null") {
		t.Errorf("the page gets null for a list: %s", body)
	}
	s.Show(good())
	first := state(t, h)
	if first.Stale || len(first.Sheets) != 1 {
		t.Errorf("the good one: %+v", first)
	}
	for range 2 {
		s.Show(State{Job: "bath.toml", Problems: []Problem{{Severity: "error", Message: "broken"}}})
		st := state(t, h)
		if !st.Stale || len(st.Sheets) != 1 || st.Sheets[0].Hash != first.Sheets[0].Hash || len(st.Problems) != 1 ||
			st.Version == first.Version {
			t.Errorf("with errors: %+v", st)
		}
	}
	if answer, body := get(t, "GET", h.URL+"/pdf", ""); answer.StatusCode != 200 || body != "%PDF" {
		t.Errorf("the last good PDF: %d %s", answer.StatusCode, body)
	}
	s.Show(good())
	if st := state(t, h); st.Stale || st.Version != first.Version {
		t.Errorf("mended: %+v, want the version of the first", st)
	}
}

// TestEvents tells a page the present version at once and each later one.
func TestEvents(t *testing.T) {
	s, h := serve(t)
	s.Show(good())
	answer, err := http.Get(h.URL + "/events")
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	lines := bufio.NewScanner(answer.Body)
	next := func() string {
		for lines.Scan() {
			if v, ok := strings.CutPrefix(lines.Text(), "data: "); ok {
				return v
			}
		}
		t.Fatal("the events ended")
		return ""
	}
	if v := next(); v != s.current().Version {
		t.Errorf("first event %q", v)
	}
	s.Show(State{Job: "bath.toml", Problems: []Problem{{Severity: "error"}}})
	if v := next(); v != s.current().Version {
		t.Errorf("second event %q, state %q", v, s.current().Version)
	}
}

// While a newer state is worked out pages are told so, over what there is.
func TestDrawing(t *testing.T) {
	s, h := serve(t)
	s.Drawing()
	if _, body := get(t, "GET", h.URL+"/state", ""); !strings.Contains(body, `"busy":true`) ||
		strings.Contains(body, "null") {
		t.Errorf("before any drawing: %s", body)
	}
	s.Show(good())
	first := state(t, h)
	s.Drawing()
	if st := state(t, h); !st.Busy || st.Version == first.Version || len(st.Sheets) != 1 {
		t.Errorf("while it is drawn anew: %+v", st)
	}
	s.Show(good())
	if st := state(t, h); st.Busy || st.Version != first.Version {
		t.Errorf("drawn: %+v", st)
	}
}
