//go:build !js

package preview

import (
	"crypto/rand"
	"crypto/subtle"
	"html"
	"io"
	"net"
	"net/http"
	"strings"
	"sync"
)

// A Gate lets other devices see what a server shows, at an address beyond this machine: those
// that were given its key. A key lets one device in; for the next there is a new one.
//
//	/join/KEY asks whether to go in; what is fetched ahead of a person does not use the key up
//	with the cookie that it gives, all is as the server has it
type Gate struct {
	server *Server
	host   string
	joined func(from string)

	mu     sync.Mutex
	key    string
	inside map[string]bool // by what their cookies hold
}

// mostGuests is how many devices may be let in.
const mostGuests = 20

// guestCookie is what a device that was let in is known by.
const guestCookie = "oxturn"

// Gate returns a gate for a listener's address. It calls joined for each device that comes in.
func (s *Server) Gate(addr net.Addr, joined func(from string)) *Gate {
	return &Gate{server: s, host: addr.String(), joined: joined, key: rand.Text(), inside: map[string]bool{}}
}

// Address is where the next device is let in.
func (g *Gate) Address() string {
	g.mu.Lock()
	defer g.mu.Unlock()
	return "http://" + g.host + "/join/" + g.key
}

// joinPolicy lets the question send its own answer, and nothing else.
const joinPolicy = "default-src 'none'; style-src 'sha256-wRhqXc/TEbnPti3WDmwt0upoC9MPnmAUBV+RfdhC8/k='; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

const joinPage = `<!DOCTYPE html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>oxturn</title>
<style>` + joinStyle + `</style>
</head>
<body>
<h1>{JOB}</h1>
<p>Follow the drawings of this job as it is being written. They come from the computer that showed the code.</p>
<form method="post"><button type="submit">Follow</button></form>
</body>
</html>
`

const joinStyle = `:root{color-scheme:light dark}body{font:18px/1.5 system-ui,sans-serif;` +
	`margin:10vh auto;padding:0 20px;max-width:28em}button{font:inherit;font-weight:600;min-height:56px;width:100%}`

// ServeHTTP answers one request.
func (g *Gate) ServeHTTP(w http.ResponseWriter, r *http.Request) {
	guard(w)
	if !strings.EqualFold(r.Host, g.host) {
		http.Error(w, "this preview answers only to the address that oxturn printed", http.StatusMisdirectedRequest)
		return
	}
	if key, ok := strings.CutPrefix(r.URL.Path, "/join/"); ok {
		g.join(w, r, key)
		return
	}
	if !g.knows(r) {
		http.Error(w, "take the code that oxturn shows: each lets one device in", http.StatusForbidden)
		return
	}
	g.server.mux.ServeHTTP(w, r)
}

func (g *Gate) knows(r *http.Request) bool {
	c, err := r.Cookie(guestCookie)
	g.mu.Lock()
	defer g.mu.Unlock()
	return err == nil && g.inside[c.Value]
}

// join asks a device that has the key, and lets it in once a person there says so.
func (g *Gate) join(w http.ResponseWriter, r *http.Request, key string) {
	w.Header().Set("Content-Security-Policy", joinPolicy)
	switch {
	case g.knows(r):
		http.Redirect(w, r, "/", http.StatusSeeOther)
	case r.Method != http.MethodPost && !g.fits(key):
		http.Error(w, usedUp, http.StatusForbidden)
	case r.Method == http.MethodGet || r.Method == http.MethodHead:
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		io.WriteString(w, strings.Replace(joinPage, "{JOB}", html.EscapeString(g.server.current().title()), 1))
	case r.Method != http.MethodPost:
		http.Error(w, "", http.StatusMethodNotAllowed)
	default:
		g.letIn(w, r, key)
	}
}

const usedUp = "this code has let a device in, or is none: take the one that oxturn shows now"

func (g *Gate) fits(key string) bool {
	g.mu.Lock()
	defer g.mu.Unlock()
	return subtle.ConstantTimeCompare([]byte(key), []byte(g.key)) == 1
}

// letIn uses the key up.
func (g *Gate) letIn(w http.ResponseWriter, r *http.Request, key string) {
	g.mu.Lock()
	ok := subtle.ConstantTimeCompare([]byte(key), []byte(g.key)) == 1 && len(g.inside) < mostGuests
	known := rand.Text()
	if ok {
		g.key = rand.Text()
		g.inside[known] = true
	}
	g.mu.Unlock()
	if !ok {
		http.Error(w, usedUp, http.StatusForbidden)
		return
	}
	http.SetCookie(w, &http.Cookie{Name: guestCookie, Value: known, Path: "/", HttpOnly: true,
		SameSite: http.SameSiteStrictMode})
	http.Redirect(w, r, "/", http.StatusSeeOther)
	from, _, err := net.SplitHostPort(r.RemoteAddr)
	if err != nil {
		from = r.RemoteAddr
	}
	g.joined(from)
}
