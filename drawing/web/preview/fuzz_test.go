package preview

import (
	"context"
	"net/http"
	"net/http/httptest"
	"net/url"
	"strings"
	"testing"
)

// FuzzRequest asks for anything under any host's name: a stranger's name gets
// nothing, and no path leads out of what is served.
func FuzzRequest(f *testing.F) {
	for _, target := range []string{"/", "/page/page.js", "/page/../server.go", "/page/%2e%2e/server.go", "/sheet/plan",
		"/sheet/", "/state", "/pdf", "/events", "//evil.example/", "/page/\x00", ""} {
		for _, host := range []string{"127.0.0.1:7000", "localhost:7000", "LOCALHOST:7000", "evil.example", "127.0.0.1",
			"127.0.0.1:7000.evil.example", ""} {
			f.Add("GET", target, host)
		}
	}
	f.Add("POST", "/state", "127.0.0.1:7000")
	s, err := New(address("127.0.0.1:7000"))
	if err != nil {
		f.Fatal(err)
	}
	s.Show(State{Job: "bath.toml", Sheets: []Sheet{{ID: "plan", SVG: []byte("<svg/>")}}, PDF: []byte("%PDF"),
		PDFName: "bath.pdf"})
	f.Fuzz(func(t *testing.T, method, target, host string) {
		gone, leave := context.WithCancel(context.Background())
		leave() // a reader of events that has left
		r := (&http.Request{Method: method, Host: host, URL: &url.URL{Path: target},
			Header: http.Header{}}).WithContext(gone)
		w := httptest.NewRecorder()
		s.ServeHTTP(w, r)
		ours := strings.EqualFold(host, "127.0.0.1:7000") || strings.EqualFold(host, "localhost:7000") ||
			host == "[::1]:7000"
		if !ours && w.Code < 400 {
			t.Errorf("%s %q of %q is answered with %d", method, target, host, w.Code)
		}
		if w.Code < 300 && method != http.MethodGet && method != http.MethodHead {
			t.Errorf("%s %q is answered with %d", method, target, w.Code)
		}
		if w.Header().Get("Content-Security-Policy") != contentPolicy {
			t.Errorf("%s %q has no policy", method, target)
		}
		if strings.Contains(w.Body.String(), "package preview") {
			t.Errorf("%q leads out of the page's folder", target)
		}
	})
}

// address is a listener's address by its text.
type address string

func (a address) Network() string { return "tcp" }
func (a address) String() string  { return string(a) }
