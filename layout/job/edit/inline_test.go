package edit

import (
	"fmt"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

const inOneValue = `[[photo]]
file = "a.jpg"
point = [
  {image = [1, 2], corner = "A"}, # by the door
  {image = [3, 4], at = [0, 0]}   # the last
]

[[photo]]
point = [{image = [1, 2], corner = "A"}, {image = [3, 4], corner = "B"}]

[[photo]]
point = []
`

func TestListsInOneValue(t *testing.T) {
	point := []Field{{"image", "[5, 6]"}, {"corner", `"C"`}}
	for _, c := range []struct {
		name     string
		change   Change
		old, now string
	}{
		{"one more, on a line of its own", Change{Do: "add", Table: "photo/0/point", Lines: point},
			"at = [0, 0]}   # the last\n", "at = [0, 0]},   # the last\n  {image = [5, 6], corner = \"C\"},\n"},
		{"one more in the line", Change{Do: "add", Table: "photo/1/point", Lines: point},
			`corner = "B"}]`, `corner = "B"}, {image = [5, 6], corner = "C"}]`},
		{"the first", Change{Do: "add", Table: "photo/2/point", Lines: point},
			`[]`, `[{image = [5, 6], corner = "C"}]`},
		{"a value", Change{Do: "set", Table: "photo/0/point/1", Key: "image", Value: "[7, 8]"},
			"image = [3, 4], at", "image = [7, 8], at"},
		{"a new key", Change{Do: "set", Table: "photo/0/point/0", Key: "mark", Value: `"BOX"`},
			`corner = "A"}, #`, `corner = "A", mark = "BOX"}, #`},
		{"a key less", Change{Do: "unset", Table: "photo/0/point/0", Key: "corner"},
			`{image = [1, 2], corner = "A"}, #`, `{image = [1, 2]}, #`},
		{"the first key", Change{Do: "unset", Table: "photo/1/point/1", Key: "image"},
			`{image = [3, 4], corner = "B"}`, `{corner = "B"}`},
		{"an item with its line", Change{Do: "drop", Table: "photo/0/point/0"},
			"  {image = [1, 2], corner = \"A\"}, # by the door\n", ""},
		{"the last item with its line", Change{Do: "drop", Table: "photo/0/point/1"},
			"  {image = [3, 4], at = [0, 0]}   # the last\n", ""},
		{"the first of a line", Change{Do: "drop", Table: "photo/1/point/0"}, `{image = [1, 2], corner = "A"}, {`, `{`},
		{"the last of a line", Change{Do: "drop", Table: "photo/1/point/1"}, `, {image = [3, 4], corner = "B"}`, ``},
	} {
		got, err := Apply(inOneValue, []Change{c.change})
		i := strings.LastIndex(inOneValue, c.old)
		if err != nil || i < 0 {
			t.Errorf("%s: %v", c.name, err)
			continue
		}
		if diff := cmp.Diff(inOneValue[:i]+c.now+inOneValue[i+len(c.old):], got); diff != "" {
			t.Errorf("%s: -want +got\n%s", c.name, diff)
		}
	}
	for _, c := range []Change{
		{Do: "add", Table: "photo/0/file", Lines: point},
		{Do: "add", Table: "photo/0/point", Lines: []Field{{"x = 1, y", "2"}}},
		{Do: "drop", Table: "photo/0/point/2"},
		{Do: "set", Table: "photo/0/point", Key: "image", Value: "[1, 2]"},
		{Do: "set", Table: "photo/0/point/0", Key: "mark", Value: "[\n1]"},
	} {
		if got, err := Apply(inOneValue, []Change{c}); err == nil || got != inOneValue {
			t.Errorf("%+v: %v\n%s", c, err, got)
		}
	}
}

// The TOML library is the judge: whatever is added, changed and taken out of a list in one value,
// however it is laid out, the list says that and nothing else is lost.
func TestListsInOneValueSayWhatTheyAreTold(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		between := rapid.SampledFrom([]string{", ", ",", ",\n  ", ", # note\n  ", " ,\n\n\t"})
		n := rapid.IntRange(0, 4).Draw(t, "items")
		text := "list = [" + rapid.SampledFrom([]string{"", " ", "\n  ", " # first\n  "}).Draw(t, "begin")
		want := []map[string]any{}
		for i := range n {
			text += fmt.Sprintf("{a = %d, b = \"x\"}", i)
			want = append(want, map[string]any{"a": int64(i), "b": "x"})
			if i < n-1 {
				text += between.Draw(t, "between")
			}
		}
		text += rapid.SampledFrom([]string{"", "\n", " # end\n", "  "}).Draw(t, "end") + "] # behind\nother = 1\n"
		if n > 0 {
			text = strings.Replace(text, "\"x\"}"+"\n]", "\"x\"},\n]", rapid.IntRange(0, 1).Draw(t, "comma"))
		}
		for range rapid.IntRange(1, 4).Draw(t, "changes") {
			i := rapid.IntRange(0, max(0, len(want)-1)).Draw(t, "item")
			c := Change{Do: "add", Table: "list", Lines: []Field{{"a", "9"}}}
			if len(want) > 0 {
				c = rapid.SampledFrom([]Change{c, {Do: "drop"}, {Do: "unset", Key: "a"},
					{Do: "set", Key: "c", Value: "3"}, {Do: "set", Key: "b", Value: `"y"`}}).Draw(t, "change")
			}
			switch c.Do {
			case "add":
				want = append(want, map[string]any{"a": int64(9)})
			case "drop":
				want = append(want[:i:i], want[i+1:]...)
			case "unset":
				delete(want[i], "a")
			case "set":
				want[i][c.Key] = map[string]any{"c": int64(3), "b": "y"}[c.Key]
			}
			if c.Do != "add" {
				c.Table = fmt.Sprintf("list/%d", i)
			}
			now, err := Apply(text, []Change{c})
			if err != nil {
				t.Fatalf("%+v of\n%s\n%v", c, text, err)
			}
			var got struct {
				List  []map[string]any
				Other int
			}
			if _, err := toml.Decode(now, &got); err != nil || got.Other != 1 ||
				!strings.HasSuffix(now, "# behind\nother = 1\n") ||
				len(got.List)+len(want) > 0 && !cmp.Equal(got.List, want) {
				t.Fatalf("%+v of\n%s\ngives\n%s\n%v\n%s", c, text, now, err, cmp.Diff(want, got.List))
			}
			text = now
		}
	})
}
