package layout_test

import (
	"go/scanner"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// widest is the most columns of a line of code, a tab counted as four.
const widest = 120

// TestNoLineIsTooWide: lines of Go are no wider than a reader's window, but for text
// between back quotes that runs over several of them.
func TestNoLineIsTooWide(t *testing.T) {
	err := filepath.WalkDir("..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || !strings.HasSuffix(path, ".go") {
			return err
		}
		src, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		quoted := quotedLines(src)
		for i, line := range strings.Split(string(src), "\n") {
			if n := utf8.RuneCountInString(line) + 3*strings.Count(line, "\t"); n > widest && !quoted[i+1] {
				t.Errorf("%s:%d: %d columns", path, i+1, n)
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// TestNoParagraphIsTooWide: nor are those of the two texts that people read first, tables and what
// is set off as code apart.
func TestNoParagraphIsTooWide(t *testing.T) {
	for _, name := range []string{"../README.md", "../DEVELOPERS.md"} {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		fenced := false
		for i, line := range strings.Split(string(text), "\n") {
			if strings.HasPrefix(line, "```") {
				fenced = !fenced
			}
			setOff := fenced || strings.HasPrefix(line, "    ") || strings.HasPrefix(line, "|")
			if n := utf8.RuneCountInString(line); n > widest && !setOff {
				t.Errorf("%s:%d: %d columns", name, i+1, n)
			}
		}
	}
}

// quotedLines are the lines that a literal of several lines touches, counted from 1.
func quotedLines(src []byte) map[int]bool {
	set := token.NewFileSet()
	file := set.AddFile("", -1, len(src))
	var s scanner.Scanner
	s.Init(file, src, nil, 0)
	lines := map[int]bool{}
	for {
		pos, tok, text := s.Scan()
		if tok == token.EOF {
			return lines
		}
		if n := strings.Count(text, "\n"); tok == token.STRING && n > 0 {
			for i := range n + 1 {
				lines[file.Line(pos)+i] = true
			}
		}
	}
}
