package tree

import (
	"errors"
	"fmt"
	"regexp"
	"strings"
	"unicode/utf8"

	"github.com/BurntSushi/toml"
)

// A SyntaxError says where a file stops being TOML, and what to type.
type SyntaxError struct {
	Range   Range
	Message string
	Hint    string
}

// Error returns the message.
func (e *SyntaxError) Error() string { return e.Message }

// bom is the byte order mark that some editors write first.
const bom = "\xef\xbb\xbf"

// Limits on what is handed to the library, which works through nesting by
// recursion and through a dotted key in quadratic time.
const (
	maxDepth = 100
	maxDots  = 64
	maxItems = 100_000 // commas: a file of that many values is no job
)

// readable returns the file as text of the same length: a byte order mark
// becomes blanks, so that every offset stays what it is in the file.
func readable(data []byte) (string, error) {
	text := string(data)
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") || strings.IndexByte(text[:min(8, len(text))], 0) >= 0 {
		return "", &SyntaxError{Message: "this file is UTF-16 text, or no text at all", Hint: "save it as UTF-8 in the editor"}
	}
	if strings.HasPrefix(text, bom) {
		text = "   " + text[len(bom):]
	}
	if at := badRune(text); at >= 0 {
		return "", &SyntaxError{Range{at, at + 1}, fmt.Sprintf("byte 0x%02x is not UTF-8 text", text[at]), "save the file as UTF-8 in the editor"}
	}
	return text, tooMuch(text)
}

// badRune returns the offset of the first byte that is not UTF-8, or -1.
func badRune(text string) int {
	if utf8.ValidString(text) {
		return -1
	}
	for i, r := range text {
		if r != utf8.RuneError {
			continue
		}
		if _, n := utf8.DecodeRuneInString(text[i:]); n == 1 {
			return i
		}
	}
	return -1
}

// tooMuch refuses nesting, dotted keys and lists beyond any job file.
func tooMuch(text string) error {
	depth, dots, commas := 0, 0, 0
	for i := 0; i < len(text); i++ {
		switch c := text[i]; c {
		case '#':
			i = lineEnd(text, i) - 1
		case '"', '\'':
			i = stringEnd(text, i) - 1
		case '[', '{':
			depth, dots = depth+1, 0
		case ']', '}':
			depth, dots = max(0, depth-1), 0
		case ',':
			dots, commas = 0, commas+1
		case '\n', '=':
			dots = 0
		case '.':
			dots++
		}
		if depth > maxDepth || dots > maxDots {
			return &SyntaxError{Range{i, i + 1}, "brackets or dotted keys are nested too deep here", "look for a bracket that is never closed"}
		}
		if commas > maxItems {
			return &SyntaxError{Range{i, i + 1}, fmt.Sprintf("the lists of this file have more than %d items", maxItems), "look whether this is the right file"}
		}
	}
	return nil
}

// syntaxError turns the library's error into ours.
func syntaxError(text string, err error) *SyntaxError {
	var pe toml.ParseError
	if !errors.As(err, &pe) {
		return &SyntaxError{Message: strings.TrimPrefix(err.Error(), "toml: ")}
	}
	start := min(max(pe.Position.Start, 0), len(text))
	end := min(start+max(pe.Position.Len, 1), len(text))
	e := &SyntaxError{Range: Range{start, end}, Message: strings.TrimSuffix(lowerFirst(pe.Message), ".")}
	explain(e, text)
	return e
}

func lowerFirst(s string) string {
	if s == "" || len(s) > 1 && s[1] >= 'A' && s[1] <= 'Z' {
		return s
	}
	return strings.ToLower(s[:1]) + s[1:]
}

// explain puts the commonest slips of a newcomer into plain words.
func explain(e *SyntaxError, text string) {
	line := lineAt(text, e.Range.Start)
	key, value, isKey := strings.Cut(line, "=")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	switch {
	case strings.Contains(e.Message, "already been defined"):
		e.Message = strings.NewReplacer("Key '", "key ", "key '", "key ", "' has", " has").Replace(e.Message)
		e.Hint = "keep one of the two; a second thing of the same sort gets its own [[…]] header"
	case strings.Contains(e.Message, "cannot contain newlines"), strings.Contains(e.Message, "unexpected EOF"):
		e.Hint = "close the quote or the bracket that was opened on this line"
	case inchMark(text, e.Range.Start):
		e.Message = "the inch mark ends the quoted text"
		e.Hint = `write in and ft for the marks, such as "9ft 4in", or put single quotes round text with an inch mark alone: '4"'`
	case strings.Contains(e.Message, "expected a comma"):
		e.Message = "a list goes on here without a comma, or was never closed"
		e.Hint = "put a comma after each item, and ] after the last"
	case strings.ContainsAny(text[e.Range.Start:e.Range.End], "“”„‘’"):
		e.Message = "a curly quote, as word processors make of a straight one"
		e.Hint = `write straight quotes, "north 6ft", in an editor for plain text`
	case isKey && likeDate.MatchString(value):
		e.Message = "this is no date"
		e.Hint = "a date is a day of the calendar in four, two and two figures: 2026-12-02"
	case isKey && needsQuotes(value):
		e.Message = "text and lengths with a unit stand in quotes"
		e.Hint = fmt.Sprintf("write %s = %s", key, quote(value))
	case !isKey && strings.HasPrefix(strings.TrimSpace(line), "["):
		e.Hint = "a header is a name in brackets, such as [membrane], or in double brackets where there may be several: [[room]]"
	case !isKey && strings.TrimSpace(line) != "":
		e.Hint = "a line is key = value; a comment begins with #"
	}
}

// likeDate matches what was meant as a date.
var likeDate = regexp.MustCompile(`^\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\b`)

// needsQuotes reports whether a value looks like text or a length with a unit
// that was written bare.
func needsQuotes(v string) bool {
	v, _, _ = strings.Cut(v, "#")
	v = strings.TrimSpace(v)
	if v == "" || strings.ContainsAny(v, "\"[]{}") || v[0] == '\'' {
		return false
	}
	return v != "true" && v != "false"
}

func quote(v string) string {
	v, _, _ = strings.Cut(v, "#")
	v = strings.TrimSpace(v)
	if strings.ContainsAny(v, `"\`) {
		return "'" + v + "'"
	}
	return `"` + v + `"`
}

// inchMark reports whether the quote before or at a place follows a figure, as
// an inch mark does: "9' 4"".
func inchMark(text string, at int) bool {
	for i := at - 1; i <= at; i++ {
		if i > 0 && i+1 < len(text) && text[i] == '"' && text[i-1] >= '0' && text[i-1] <= '9' && strings.ContainsRune(`", -`, rune(text[i+1])) {
			return true
		}
	}
	return false
}

func lineAt(text string, at int) string {
	start := strings.LastIndexByte(text[:at], '\n') + 1
	return strings.TrimRight(text[start:lineEnd(text, start)], "\r")
}
