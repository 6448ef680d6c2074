package language

import "fmt"

// A Message is something to be said whose reader's language is not known yet: what a plan
// holds of words. Its zero value says nothing.
type Message struct {
	format string
	values []any
}

// Say returns a message: a format of fmt with its values, among which may be other messages.
func Say(format string, values ...any) Message { return Message{format, values} }

// In puts the message into a language.
func (m Message) In(l Language) string {
	if len(m.values) == 0 {
		return l.Text(m.format)
	}
	return l.Textf(m.format, m.values...)
}

// String is the message in English.
func (m Message) String() string { return m.In(English) }

// inLanguage puts what a message's values say into the language.
func (l Language) inLanguage(values []any) []any {
	out := make([]any, len(values))
	for i, v := range values {
		switch v := v.(type) {
		case Message:
			out[i] = v.In(l)
		case fmt.Stringer:
			out[i] = l.Text(v.String())
		default:
			out[i] = v
		}
	}
	return out
}
