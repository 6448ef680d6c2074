//go:build !js

package main

import (
	"bufio"
	"context"
	"fmt"
	"net"
	"net/http"
	"slices"
	"strconv"
	"strings"
	"time"

	"oxturn/symbols"
)

// A lanAddress is where this machine can be reached from others near it.
type lanAddress struct{ network, ip string }

// lanAddresses are the private addresses of version 4 that this machine has now.
func lanAddresses() []lanAddress {
	var out []lanAddress
	networks, _ := net.Interfaces()
	for _, n := range networks {
		if n.Flags&net.FlagUp == 0 || n.Flags&net.FlagLoopback != 0 {
			continue
		}
		all, _ := n.Addrs()
		for _, a := range all {
			if ip, _, err := net.ParseCIDR(a.String()); err == nil && ip.To4() != nil && ip.IsPrivate() {
				out = append(out, lanAddress{n.Name, ip.String()})
			}
		}
	}
	return out
}

// lan asks where to listen beyond this machine, and does so where the answer is yes.
func (s *session) lan(ctx context.Context, all []lanAddress) (end func(), err error) {
	at, ok := s.askLAN(ctx, all)
	if !ok {
		s.say("nobody beyond this machine is let in")
		return func() {}, nil
	}
	l, err := net.Listen("tcp", net.JoinHostPort(at.ip, "0"))
	if err != nil {
		return nil, err
	}
	s.gate = s.server.Gate(l.Addr(), func(from string) {
		s.say("let in: %s", from)
		s.invite()
	})
	h := &http.Server{Handler: s.gate, ReadHeaderTimeout: 10 * time.Second}
	go h.Serve(l)
	s.invite()
	return func() { h.Close() }, nil
}

// yes is what stands for it in the languages that the question is put in.
var yes = [...]string{"y", "yes", "s", "si", "sí", "o", "oui", "j", "ja"}

// askLAN says plainly what it means to listen, and takes yes or a number for an answer.
func (s *session) askLAN(ctx context.Context, all []lanAddress) (lanAddress, bool) {
	s.say("Other devices in this network could then see the drawings of this job, those that are shown the\n" +
		"code which comes next. They cannot change it. What is sent is not encrypted: whoever listens in on the\n" +
		"network can read it. It ends with Ctrl-C.")
	for i, a := range all {
		s.say("  %d  %s (%s)", i+1, a.ip, a.network)
	}
	if len(all) == 1 {
		fmt.Fprint(s.Err, s.told(fmt.Sprintf("Listen at %s? [y/N] ", all[0].ip)))
	} else {
		fmt.Fprint(s.Err, s.told("Listen at which of them, by its number? [none] "))
	}
	answer := s.answer(ctx)
	if n, err := strconv.Atoi(answer); err == nil && n >= 1 && n <= len(all) {
		return all[n-1], true
	}
	return all[0], len(all) == 1 && slices.Contains(yes[:], answer)
}

// answer is the next line of the standard input, "" where there is none or the work is ended.
func (s *session) answer(ctx context.Context) string {
	line := make(chan string, 1)
	go func() {
		text, _ := bufio.NewReader(s.In).ReadString('\n')
		line <- strings.ToLower(strings.TrimSpace(text))
	}()
	select {
	case text := <-line:
		return text
	case <-ctx.Done():
		return ""
	}
}

// invite shows the code by which the next device is let in.
func (s *session) invite() {
	address, code := s.gate.Address(), ""
	if rows, err := symbols.CodeRows(address); err == nil {
		code = terminalCode(rows, isTerminal(s.Err))
	}
	words := fmt.Sprintf("on the phone: %s\nthis code lets one device in; the next gets another", address)
	fmt.Fprintln(s.Err, code+s.told(words))
}

// terminalCode prints a code's modules, two rows to a line of text. Where colours can be
// given it is black on white, else light letters stand for the white, as on a dark terminal.
func terminalCode(rows [][]bool, colours bool) string {
	n := len(rows)
	dark := func(x, y int) bool { return x >= 0 && y >= 0 && x < n && y < n && rows[y][x] }
	begin, end := "", "\n"
	halves := map[[2]bool]string{{false, false}: "█", {false, true}: "▀", {true, false}: "▄", {true, true}: " "}
	if colours {
		begin, end = "\x1b[38;5;16;48;5;231m", "\x1b[0m\n"
		halves = map[[2]bool]string{{false, false}: " ", {false, true}: "▄", {true, false}: "▀", {true, true}: "█"}
	}
	var b strings.Builder
	const quiet = symbols.CodeQuiet
	for y := -quiet; y < n+quiet; y += 2 {
		b.WriteString(begin)
		for x := -quiet; x < n+quiet; x++ {
			b.WriteString(halves[[2]bool{dark(x, y), dark(x, y+1)}])
		}
		b.WriteString(end)
	}
	return b.String()
}
