package tree

import "testing"

// TestStraightQuotes: a file typed on a phone is read where straight quotes make it TOML, with
// everything where it stands, and left alone where they do not or need not.
func TestStraightQuotes(t *testing.T) {
	for _, c := range []struct{ text, want, short string }{
		{"kind = “tub”\nfrom = 1", "kind =   \"tub\"  \nfrom = 1", "kind = \"tub\"\nfrom = 1"},
		{"walls = [“east 9ft”, „south“]", "walls = [  \"east 9ft\"  ,   \"south\"  ]",
			"walls = [\"east 9ft\", \"south\"]"},
		{"a = ‘6' 2\"’", "", ""},                      // the foot's mark would end it
		{"a = ‘4\"’", "a =   '4\"'  ", "a = '4\"'"},   // an inch mark alone does not
		{"note = \"the “new” tub\"", "", ""},          // curly quotes inside straight ones are letters
		{"note = \"the “new” tub\"\nb = “x”", "", ""}, // and would end the text here
		{"a = “x", "", ""},
		{"a = 1", "", ""},
		{"a = «x»\nb = 2", "a =  \"x\" \nb = 2", "a = \"x\"\nb = 2"},
	} {
		got, first, ok := StraightQuotes([]byte(c.text))
		if ok != (c.want != "") || ok && string(got) != c.want {
			t.Errorf("%q: %q, %v, want %q", c.text, got, ok, c.want)
		}
		if ok && (len(got) != len(c.text) || !curlyQuotes().MatchString(c.text[first.Start:first.End])) {
			t.Errorf("%q: moved, or the first quote at %v", c.text, first)
		}
		if c.short == "" {
			c.short = c.text
		}
		if short := WithStraightQuotes(c.text); short != c.short {
			t.Errorf("%q to change: %q, want %q", c.text, short, c.short)
		}
	}
}
