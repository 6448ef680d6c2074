package main

import (
	"fmt"
	"strings"
)

// manual is the manual page: overview, verbs and topics as help prints them,
// in the man macros of troff.
func manual() string {
	var b strings.Builder
	fmt.Fprintf(&b, ".TH OXTURN 1 \"\" \"oxturn %s\" \"User Commands\"\n", release)
	b.WriteString(".SH NAME\noxturn \\- drawings, take\\-off and map of a warmed tile floor from one job file\n")
	b.WriteString(".SH SYNOPSIS\n")
	for _, v := range verbs() {
		fmt.Fprintf(&b, ".B oxturn\n%s\n.br\n", roff(v.use))
	}
	b.WriteString(".SH COMMANDS\n")
	for _, v := range verbs() {
		fmt.Fprintf(&b, ".SS %s\n%s\n%s", roff(v.name), roff(sentence(v.short)), verbatim(v.help))
	}
	for _, t := range topics() {
		fmt.Fprintf(&b, ".SH %s\n%s", roff(strings.ToUpper(t.name)), verbatim(topicText(t.name)))
	}
	return b.String()
}

func sentence(s string) string { return strings.ToUpper(s[:1]) + s[1:] + "." }

// verbatim sets a text as it stands.
func verbatim(text string) string {
	lines := strings.Split(strings.Trim(text, "\n"), "\n")
	for i, l := range lines {
		lines[i] = roff(l)
	}
	return ".PP\n.nf\n" + strings.Join(lines, "\n") + "\n.fi\n"
}

// roff keeps text from being read as requests or escapes.
func roff(s string) string {
	s = strings.NewReplacer(`\`, `\e`, "-", `\-`, "'", `\(aq`, "`", `\(ga`, "^", `\(ha`, "~", `\(ti`).Replace(s)
	if strings.HasPrefix(s, ".") {
		s = `\&` + s
	}
	return s
}
