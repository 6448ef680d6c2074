package tree

import "testing"

func TestNewerThan10(t *testing.T) {
	for text, want := range map[string]string{
		"a = { b = 1, c = [1,\n2] }\nd = [\n1,\n]\n":            "", // lines and commas in arrays are old
		"a = \"x\\u0041\\n\" # { \\e\nb = '\\e{'":               "",
		"a = 07:32:00\nb = 1979-05-27 07:32:00Z\nc = \"07:32\"": "",
		"a = {\n b = 1 }":                    "a line break inside { }",
		"a = { b = 1 # c\n}":                 "a line break inside { }",
		"a = { b = 1, }":                     "a comma before the closing }",
		"a = [{ b = 1 }, { b = {c = 2 ,} }]": "a comma before the closing }",
		"a = \"\\e[2J\"":                     "the escape \\e",
		"a = \"\\\\e \\x41\"":                "the escape \\x",
		"\"\\x41\" = 1":                      "the escape \\x",
		"a = 07:32":                          "a time without seconds",
		"a = 1979-05-27 07:32Z # b":          "a time without seconds",
	} {
		if _, err := Parse([]byte(text)); err != nil {
			t.Errorf("%q: %v", text, err)
		}
		got := ""
		for _, n := range NewerThan10([]byte(text)) {
			got += n.What
			if n.Range.Start < 0 || n.Range.End > len(text) || n.Range.End <= n.Range.Start || n.Hint == "" {
				t.Errorf("%q: %+v", text, n)
			}
		}
		if got != want {
			t.Errorf("%q: %q, want %q", text, got, want)
		}
	}
}
