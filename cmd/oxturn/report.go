package main

import (
	"bytes"
	"fmt"
	"io"
	"strings"

	"oxturn/layout/job"
)

// printReport writes the diagnostics of one job: for people on the error
// stream; for programs on the output, as they are the data that was asked for.
func printReport(c *console, r *job.Report, style string) {
	c.keep(r)
	switch style {
	case "json":
		writeJSON(c.Out, r)
	case "github":
		writeGitHub(c.Out, r)
	case "short":
		r.Short(c.Err)
	default:
		r.Human(c.Err, c.Colour)
	}
}

// jsonHead is the first line of the json style, written once however many
// jobs follow.
func jsonHead() []byte {
	var b bytes.Buffer
	new(job.Report).JSON(&b)
	return b.Bytes()
}

// writeJSON writes a report's lines but for the first.
func writeJSON(w io.Writer, r *job.Report) {
	var b bytes.Buffer
	r.JSON(&b)
	w.Write(bytes.TrimPrefix(b.Bytes(), jsonHead()))
}

// writeGitHub writes diagnostics as the workflow commands that GitHub turns
// into annotations of a change:
// https://docs.github.com/actions/reference/workflow-commands-for-github-actions
func writeGitHub(w io.Writer, r *job.Report) {
	t := r.Teller()
	for _, d := range r.Diagnostics() {
		var at []string
		if d.Span.File != "" {
			at = append(at, "file="+githubProperty(d.Span.File))
		}
		if d.Span.End > 0 {
			from, to := r.Position(d.Span.File, d.Span.Start), r.Position(d.Span.File, d.Span.End)
			at = append(at, fmt.Sprintf("line=%d,endLine=%d,col=%d,endColumn=%d", from.Line, to.Line, from.Column,
				to.Column))
		}
		if d.ID != "" {
			at = append(at, "title="+d.ID)
		}
		text := t.Retold(d.Message)
		if d.Hint != "" {
			text += "\n" + t.Retold("hint:") + " " + t.Retold(d.Hint)
		}
		fmt.Fprintf(w, "::%s %s::%s\n", d.Severity, strings.Join(at, ","), githubData(text))
	}
}

// githubData escapes text so that it stays one command.
func githubData(s string) string {
	return strings.NewReplacer("%", "%25", "\r", "%0D", "\n", "%0A").Replace(s)
}

func githubProperty(s string) string {
	return strings.NewReplacer(":", "%3A", ",", "%2C").Replace(githubData(s))
}
