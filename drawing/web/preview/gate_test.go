package preview

import (
	"crypto/sha256"
	"encoding/base64"
	"io"
	"net"
	"net/http"
	"net/http/cookiejar"
	"net/http/httptest"
	"strings"
	"testing"
)

// gated starts a gate on an address of its own, and tells who has come in.
func gated(t *testing.T) (*Gate, *[]string) {
	t.Helper()
	s, _ := serve(t)
	st := good()
	st.Job = "jobs/<b>bath.toml"
	s.Show(st)
	l, err := net.Listen("tcp", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	var came []string
	g := s.Gate(l.Addr(), func(from string) { came = append(came, from) })
	h := &httptest.Server{Listener: l, Config: &http.Server{Handler: g}}
	h.Start()
	t.Cleanup(h.Close)
	return g, &came
}

// A device is a browser of its own.
func device(t *testing.T) *http.Client {
	t.Helper()
	jar, err := cookiejar.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	return &http.Client{Jar: jar}
}

func ask(t *testing.T, c *http.Client, method, url, host string) (int, string, http.Header) {
	t.Helper()
	r, err := http.NewRequest(method, url, nil)
	if err != nil {
		t.Fatal(err)
	}
	if host != "" {
		r.Host = host
	}
	answer, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer answer.Body.Close()
	body, err := io.ReadAll(answer.Body)
	if err != nil {
		t.Fatal(err)
	}
	return answer.StatusCode, string(body), answer.Header
}

// A key lets one device in, once a person there says so; what only looks does not use it up.
func TestAKeyLetsOneDeviceIn(t *testing.T) {
	g, came := gated(t)
	base, _, _ := strings.Cut(g.Address(), "/join/")
	key := g.Address()
	phone, other := device(t), device(t)
	for _, path := range []string{"/", "/state", "/sheet/plan", "/pdf", "/events", "/page/page.js", "/join/",
		"/join/x"} {
		if code, body, _ := ask(t, other, "GET", base+path, ""); code != 403 || strings.Contains(body, "bath") {
			t.Errorf("%s without a key: %d %s", path, code, body)
		}
	}
	for range 2 {
		code, body, head := ask(t, phone, "GET", key, "")
		if code != 200 || !strings.Contains(body, "&lt;b&gt;bath.toml") || strings.Contains(body, "<b>") {
			t.Errorf("the question: %d %s", code, body)
		}
		style, _, _ := strings.Cut(strings.SplitN(body, "<style>", 2)[1], "</style>")
		sum := sha256.Sum256([]byte(style)) // hash sources of Content Security Policy level 3
		policy := head.Get("Content-Security-Policy")
		if want := base64.StdEncoding.EncodeToString(sum[:]); !strings.Contains(policy, want) {
			t.Errorf("the policy %q refuses the page's style, %s", policy, want)
		}
	}
	if len(*came) != 0 || g.Address() != key {
		t.Error("a look used the key up")
	}
	if code, _, _ := ask(t, phone, "POST", key, ""); code != 200 {
		t.Errorf("let in: %d", code)
	}
	if len(*came) != 1 || (*came)[0] != "127.0.0.1" || g.Address() == key {
		t.Errorf("came in: %v", *came)
	}
	if code, body, _ := ask(t, phone, "GET", base+"/state", ""); code != 200 || !strings.Contains(body, "bath.toml") {
		t.Errorf("inside: %d %s", code, body)
	}
	for _, method := range []string{"GET", "POST"} {
		if code, _, _ := ask(t, other, method, key, ""); code != 403 {
			t.Errorf("%s with a key that is used up: %d", method, code)
		}
	}
	if code, _, _ := ask(t, other, "GET", base+"/state", ""); code != 403 {
		t.Errorf("the second device: %d", code)
	}
	if code, _, _ := ask(t, phone, "GET", key, ""); code != 200 || len(*came) != 1 {
		t.Errorf("the first device scans again: %d", code)
	}
	if code, _, _ := ask(t, other, "POST", g.Address(), ""); code != 200 || len(*came) != 2 {
		t.Errorf("the second with a key of its own: %d", code)
	}
}

// A page of another site that points its name here reads nothing and lets nobody in.
func TestTheGateAnswersToItsAddressAlone(t *testing.T) {
	g, came := gated(t)
	base, _, _ := strings.Cut(g.Address(), "/join/")
	phone := device(t)
	ask(t, phone, "POST", g.Address(), "")
	for _, host := range []string{"evil.example", "127.0.0.1", "localhost:1"} {
		for _, url := range []string{base + "/state", g.Address()} {
			if code, body, _ := ask(t, phone, "GET", url, host); code != 421 || strings.Contains(body, "bath") {
				t.Errorf("%s as %s: %d %s", url, host, code, body)
			}
		}
		if code, _, _ := ask(t, device(t), "POST", g.Address(), host); code != 421 || len(*came) != 1 {
			t.Errorf("let in as %s: %d", host, code)
		}
	}
	if code, _, _ := ask(t, phone, "POST", base+"/state", ""); code != 405 {
		t.Errorf("a guest changes something: %d", code)
	}
}

func TestNoMoreThanSoManyGuests(t *testing.T) {
	g, came := gated(t)
	for i := range mostGuests + 2 {
		code, _, _ := ask(t, device(t), "POST", g.Address(), "")
		if want := map[bool]int{true: 200, false: 403}[i < mostGuests]; code != want {
			t.Errorf("guest %d: %d", i+1, code)
		}
	}
	if len(*came) != mostGuests {
		t.Errorf("%d came in", len(*came))
	}
}
