// Package asjson writes every JSON document of the project, files and what
// verbs print alike, in one form.
package asjson

import (
	"encoding/json"
	"io"
)

// Write writes v as one document: a space a level of indent, so that a long
// path stays a small file, and &, < and > as they are, since nothing here is
// put into HTML. An error is the writer's, or that v is no JSON.
func Write(w io.Writer, v any) error {
	e := json.NewEncoder(w)
	e.SetEscapeHTML(false)
	e.SetIndent("", " ")
	return e.Encode(v)
}
