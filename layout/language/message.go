package language

import (
	"fmt"
	"io"
	"strings"
)

// A Message is something to be said whose reader's language is not known yet: what a plan
// holds of words. Its zero value says nothing.
type Message struct {
	format string
	values []any

	parts   []Message // instead of a format: messages one after the other
	between string
}

// A Figure is a value of a message: figures written with a decimal point.
type Figure string

// Message is the figure as a message.
func (f Figure) Message() Message { return Message{format: "%s", values: []any{f}} }

// Say returns a message: a format of fmt with its values, among which may be other messages and
// figures.
func Say(format string, values ...any) Message { return Message{format: format, values: values} }

// As returns what is said alike in every language: a name, a standard's number, a job's own words.
func As(text string) Message {
	if text == "" {
		return Message{}
	}
	return Message{format: "%s", values: []any{text}}
}

// Joined returns messages as one, with a mark such as "; " between them. What says nothing is left
// out.
func Joined(between string, parts ...Message) Message {
	m := Message{between: between}
	for _, p := range parts {
		if !p.Empty() {
			m.parts = append(m.parts, p)
		}
	}
	return m
}

// Empty reports whether the message says nothing.
func (m Message) Empty() bool { return m.format == "" && len(m.parts) == 0 }

// In puts the message into a language.
func (m Message) In(l Language) string {
	switch {
	case m.parts != nil:
		return strings.Join(In(l, m.parts), l.Joint(m.between))
	case len(m.values) == 0:
		return l.Text(m.format)
	}
	return l.Textf(m.format, m.values...)
}

// String is the message in English.
func (m Message) String() string { return m.In(English) }

// MarshalText writes the message in English, as documents for other programs have it.
func (m Message) MarshalText() ([]byte, error) { return []byte(m.String()), nil }

// In puts messages into a language.
func In(l Language, messages []Message) []string {
	var out []string
	for _, m := range messages {
		out = append(out, m.In(l))
	}
	return out
}

// A number writes itself as its verb says, with the decimal sign of a language.
type number struct {
	float64
	l Language
}

func (n number) Format(s fmt.State, verb rune) {
	_, _ = io.WriteString(s, n.l.Figure(fmt.Sprintf(fmt.FormatString(s, verb), n.float64))) // as fmt: none to tell
}

// inLanguage puts what a message's values say into the language.
func (l Language) inLanguage(values []any) []any {
	out := make([]any, len(values))
	for i, v := range values {
		switch v := v.(type) {
		case Message:
			out[i] = v.In(l)
		case Figure:
			out[i] = l.Figure(string(v))
		case fmt.Stringer:
			out[i] = l.Text(v.String())
		case error:
			out[i] = l.Text(v.Error())
		case float64:
			out[i] = number{v, l}
		default:
			out[i] = v
		}
	}
	return out
}
