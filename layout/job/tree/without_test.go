package tree

import (
	"bytes"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
)

func money(key string) bool { return key == "price" || key == "prices" }

func TestWithout(t *testing.T) {
	for in, want := range map[string]string{
		"a = 1\nprice = 2\nb = 3\n":                       "a = 1\nb = 3\n",
		"# bought for 12\na = 1 # or 13\n\nb = \"#\"\n":   "a = 1\n\nb = \"#\"\n",
		"x = { price = 2, a = 1 }\n":                      "x = { a = 1 }\n",
		"x = { a = 1, price = 2 }\ny = {price=1}\n":       "x = { a = 1 }\ny = {}\n",
		"x = { a = 1, price = 2, b = 3 }\n":               "x = { a = 1, b = 3 }\n",
		"[t]\nprice = 2.5 # each\n\n[[u]]\nu.price = 3\n": "[t]\n\n[[u]]\n",
		"\"price\" = 1\n'price2' = 2\nprices = \"p.csv\"": "'price2' = 2\n",
		"a = [\n  1, # one\n  2,\n  # two\n]\nprice = [\n1,\n2\n]\nb = 1\n": "a = [\n  1,\n  2,\n]\n" +
			"b = 1\n",
		"a = \"\"\"\n# no comment\nprice = 3\n\"\"\"\n": "a = \"\"\"\n# no comment\nprice = 3\n\"\"\"\n",
		"price = 1\r\na = 2\r\n":                        "a = 2\r\n",
		"price = 1":                                     "",
	} {
		got, err := Without([]byte(in), money)
		if err != nil || string(got) != want {
			t.Errorf("%q: %q, want %q; %v", in, got, want, err)
		}
	}
}

// FuzzWithout holds what is left against the library's own reading: all that was
// there but the keys dropped, with the same values, and no comment.
func FuzzWithout(f *testing.F) {
	for _, s := range []string{"a = {price = 1, b = [1, {price = 2}]}", "[a.price]\nb = 1\n", "a.price.c = 1",
		"price = '''\n'''\n# x", "a = { price = 1,\n b = 2 }"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, text string) {
		if _, err := Parse([]byte(text)); err != nil {
			return
		}
		got, err := Without([]byte(text), money)
		if err != nil {
			t.Fatalf("%q: %q, %v", text, got, err)
		}
		if bytes.Contains([]byte(text), []byte("price")) {
			return // what a table of that name leaves is another matter
		}
		var before, after map[string]any
		if _, err := toml.Decode(string(got), &after); err != nil {
			t.Fatalf("%q: %q, %v", text, got, err)
		}
		if _, err := toml.Decode(text, &before); err != nil {
			return
		}
		if d := cmp.Diff(before, after); d != "" {
			t.Errorf("%q became %q: %s", text, got, d)
		}
	})
}
