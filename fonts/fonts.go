// Package fonts holds the embedded faces and measures text set in them.
//
// Sizes are given by the height of a capital, as ISO 3098 does, never by the
// em: "2.5 mm lettering" is lettering whose H is 2.5 mm tall on paper.
package fonts

import (
	_ "embed"

	"golang.org/x/image/font/gofont/gobold"
	"golang.org/x/image/font/gofont/goregular"
)

// A Face is one of the embedded faces. A value that is none of the constants
// stands for Lettering.
type Face int

// Lettering is for dimensions, tags, legends and title blocks.
const (
	Lettering Face = iota
	LetteringBold
)

// Faces returns all embedded faces.
func Faces() []Face { return []Face{Lettering, LetteringBold} }

// Name returns the face's full name.
func (f Face) Name() string {
	if f == LetteringBold {
		return "Go Bold"
	}
	return "Go Regular"
}

// Bold reports whether f is a bold face.
func (f Face) Bold() bool { return f == LetteringBold }

// Data returns the face as a TrueType file. The caller must not change it.
func Data(f Face) []byte {
	if f == LetteringBold {
		return gobold.TTF
	}
	return goregular.TTF
}

//go:embed LICENSE-Go-fonts.txt
var licenceText string

// Licences returns the licence texts of the embedded faces, to be printed for
// whoever passes the program on.
func Licences() string {
	return "Go Regular and Go Bold\n\n" + licenceText
}
