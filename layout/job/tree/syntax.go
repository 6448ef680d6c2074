package tree

import (
	"errors"
	"fmt"
	"strings"
	"unicode/utf8"

	"oxturn/layout/pattern"

	"github.com/BurntSushi/toml"
)

// A SyntaxError says where a file stops being TOML, and what to type.
type SyntaxError struct {
	Range   Range
	Message string
	Hint    string

	// of a key with its value, as typed; Key is empty for anything else
	Table, Key, Value string
	Bare              bool // the value stands without the quotes it wants
}

// Error returns the message.
func (e *SyntaxError) Error() string { return e.Message }

// byteOrderMark is the byte order mark that some editors write first.
const byteOrderMark = "\xef\xbb\xbf"

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
	if strings.HasPrefix(text, "\xff\xfe") || strings.HasPrefix(text, "\xfe\xff") ||
		strings.IndexByte(text[:min(8, len(text))], 0) >= 0 {
		return "", &SyntaxError{Message: "this file is UTF-16 text, or no text at all",
			Hint: "save it as UTF-8 in the editor"}
	}
	if strings.HasPrefix(text, byteOrderMark) {
		text = "   " + text[len(byteOrderMark):]
	}
	if at := badRune(text); at >= 0 {
		return "", &SyntaxError{Range: Range{at, at + 1}, Message: fmt.Sprintf("byte 0x%02x is not UTF-8 text",
			text[at]), Hint: "save the file as UTF-8 in the editor"}
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
			return &SyntaxError{Range: Range{i, i + 1}, Message: "brackets or dotted keys are nested too deep here",
				Hint: "look for a bracket that is never closed"}
		}
		if commas > maxItems {
			return &SyntaxError{Range: Range{i, i + 1},
				Message: fmt.Sprintf("the lists of this file have more than %d items", maxItems),
				Hint:    "look whether this is the right file"}
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

// explain puts the commonest slips between statements into plain words; what
// is wrong within one is explainPair's.
func explain(e *SyntaxError, text string) {
	line := strings.TrimSpace(lineAt(text, e.Range.Start))
	switch {
	case strings.Contains(e.Message, "already been defined"):
		e.Message = strings.NewReplacer("Key '", "key ", "key '", "key ", "' has", " has").Replace(e.Message)
		e.Hint = "keep one of the two; a second thing of the same sort gets its own [[…]] header"
	case strings.HasPrefix(line, "["):
		e.Hint = "a header is a name in brackets, such as [membrane], or in double brackets where there may be " +
			"several: [[room]]"
	case line != "":
		e.Hint = "a line is key = value; a comment begins with #"
	}
}

// likeDate matches what was meant as a date.
var likeDate = pattern.Of(`^"?\d{1,4}[-/.]\d{1,2}[-/.]\d{1,4}\b`)

// commaFigure matches a figure with a decimal comma.
var commaFigure = pattern.Of(`^[-+]?\d+,\d+$`)

// twoKeys matches a second key on the line of a first.
var twoKeys = pattern.Of(`^("[^"]*"|'[^']*'|[^"'\[{#]*?)[ \t,;]+[A-Za-z_][\w-]*[ \t]*=[^=]`)

// explainPair puts the commonest slips of a newcomer with one key and its
// value into plain words. at is where the value stands, between what joins it
// to its key.
func explainPair(e *SyntaxError, s statement, text, between string, at Range) {
	value := text[at.Start:at.End]
	bare := value == "" || !strings.ContainsRune("\"'[{", rune(value[0]))
	switch {
	case e.Key != "" && between == "" && value == "":
		e.set(s.at, "a word without a value", "a line is key = value; a comment begins with #")
	case e.Key != "" && between == "":
		e.set(s.at, "there is no = in this line", "a line is key = value; a comment begins with #")
	case e.Key != "" && between != "=":
		e.set(s.at, "a key and its value are joined by =, not "+between, fmt.Sprintf("write %s = …", e.Key))
	case e.Key != "" && value == "":
		e.set(s.at, e.Key+" has no value", "put one behind the =, or take the line out")
	case strings.ContainsAny(value, "“”„‘’«»"):
		i := strings.IndexAny(value, "“”„‘’«»")
		_, n := utf8.DecodeRuneInString(value[i:])
		e.set(Range{at.Start + i, at.Start + i + n}, "a curly quote, as word processors make of a straight one",
			`write straight quotes, "north 6ft", in an editor for plain text`)
	case inchMark(text[:s.at.End], e.Range.Start):
		e.set(e.Range, "the inch mark ends the quoted text",
			`write in and ft for the marks, such as "9ft 4in", or put single quotes round text with an inch mark `+
				`alone: '4"'`)
	case twoKeys().MatchString(value):
		e.set(e.Range, "a second key on one line", "put each key on a line of its own")
	case strings.HasPrefix(value, `"`) && strings.Contains(value, `\`) && isEscape(e.Message):
		e.set(at, `a backslash in double quotes begins an escape, such as \n`,
			"put the text in single quotes, which keep it as it is, or write / for it")
	case bare && strings.HasSuffix(value, ";"):
		e.set(Range{at.End - 1, at.End}, "a line ends without ;", "take the ; out")
	case bare && strings.Contains(value, "//"):
		e.set(Range{at.Start + strings.Index(value, "//"), at.End}, "a comment begins with #, not with //",
			"write # for the //")
	case commaFigure().MatchString(value):
		e.set(at, "a figure takes a decimal point, not a comma", fmt.Sprintf("write %s = %s", e.Key,
			strings.Replace(value, ",", ".", 1)))
	case likeDate().MatchString(value):
		e.set(at, "this is no date", "a date is a day of the calendar in four, two and two figures: 2026-12-02")
	case s.opened >= 0 && strings.Count(value, `"`)%2 == 0:
		e.set(Range{s.opened, s.opened + 1}, fmt.Sprintf("the list of %s is never closed", e.Key),
			"put ] after its last item")
		if text[s.opened] == '{' {
			e.set(e.Range, fmt.Sprintf("the { of %s is never closed", e.Key), "put } at its end")
		}
	case strings.HasPrefix(value, `"`) && strings.Count(value, `"`) == 1, strings.HasPrefix(value, "'") &&
		strings.Count(value, "'") == 1, strings.Contains(e.Message, "unexpected EOF"):
		e.set(at, "the quoted text is never closed", "close it with the quote it begins with")
	case strings.Count(value, `"`)%2 == 1 && !bare && value[0] != '\'':
		e.set(e.Range, "a quote is missing: the quotes here do not pair",
			`each text begins and ends with one: "north 8ft"`)
	case strings.Contains(e.Message, "expected a comma"):
		e.set(e.Range, "a list goes on here without a comma", "put a comma after each item, and ] after the last")
	case strings.HasPrefix(value, "[") && strings.Contains(e.Message, "expected value"):
		e.set(e.Range, "text in a list stands in quotes", "put quotes round each item")
	case bare && e.Key != "":
		e.Bare = true
		e.set(at, "text and lengths with a unit stand in quotes", fmt.Sprintf("write %s = %s", e.Key, quote(value)))
	case value != "" && (value[0] == '"' || value[0] == '\''):
		e.set(e.Range, "something stands behind the quoted text",
			"quotes go round all of it, and a comment begins with #")
	}
}

func (e *SyntaxError) set(at Range, message, hint string) {
	e.Range, e.Message, e.Hint = at, message, hint
}

// isEscape reports whether the library's complaint is about a backslash.
func isEscape(message string) bool {
	return strings.Contains(message, "escape") || strings.Contains(message, "hexadecimal")
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
		if i > 0 && i+1 < len(text) && text[i] == '"' && text[i-1] >= '0' && text[i-1] <= '9' &&
			strings.ContainsRune(`", -`, rune(text[i+1])) {
			return true
		}
	}
	return false
}

func lineAt(text string, at int) string {
	start := strings.LastIndexByte(text[:at], '\n') + 1
	return strings.TrimRight(text[start:lineEnd(text, start)], "\r")
}
