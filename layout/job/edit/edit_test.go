package edit

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/BurntSushi/toml"
	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"
)

const small = `units = "mm"  # what a bare number means

[job]
title = "Bath" # the title block

# the room
[[room]]
name = "Bath"
walls = [
  "east 2.40 m",   # A
  "north 1.80 m",
]

[[room.fixture]] # where she bathes
kind = "tub"
width = 1510

[[room.fixture]]
kind = "toilet"

[room.thermostat]
wall = "A"

[[cable]]
id = "X"
`

func TestApply(t *testing.T) {
	for _, c := range []struct {
		name     string
		change   Change
		old, now string // of the small job: what is there and what stands in its place
	}{
		{"a value in place", Change{Do: "set", Table: "room/0/fixture/0", Key: "width", Value: "1700"},
			"width = 1510", "width = 1700"},
		{"a value keeps its comment", Change{Do: "set", Table: "job", Key: "title", Value: `"Upper bath"`},
			`title = "Bath" #`, `title = "Upper bath" #`},
		{"a new key behind the table's last", Change{Do: "set", Table: "room/0/fixture/0", Key: "depth", Value: "700"},
			"width = 1510\n", "width = 1510\ndepth = 700\n"},
		{"a new key before the tables in it", Change{Do: "set", Table: "room/0", Key: "closure", Value: "20"},
			"\n]\n\n[[room.fixture]] #", "\n]\nclosure = 20\n\n[[room.fixture]] #"},
		{"a new key of the file", Change{Do: "set", Key: "catalogue", Value: `"c.toml"`},
			"means\n", "means\ncatalogue = \"c.toml\"\n"},
		{"a list over several lines", Change{Do: "set", Table: "room/0", Key: "walls", Value: `["east 1 m"]`},
			"[\n  \"east 2.40 m\",   # A\n  \"north 1.80 m\",\n]", `["east 1 m"]`},
		{"a key with its comment", Change{Do: "unset", Table: "job", Key: "title"},
			"title = \"Bath\" # the title block\n", ""},
		{"another of a kind", Change{Do: "add", Table: "room/0/fixture", Lines: []Field{{"kind", `"vanity"`}}},
			"kind = \"toilet\"\n", "kind = \"toilet\"\n\n[[room.fixture]]\nkind = \"vanity\"\n"},
		{"the first of a kind", Change{Do: "add", Table: "room/0/opening", Lines: []Field{{"wall", `"A"`}}},
			"wall = \"A\"\n", "wall = \"A\"\n\n[[room.opening]]\nwall = \"A\"\n"},
		{"a second of a kind", Change{Do: "add", Table: "cable", Lines: []Field{{"id", `"Y"`}}},
			"id = \"X\"\n", "id = \"X\"\n\n[[cable]]\nid = \"Y\"\n"},
		{"a table that stands once", Change{Do: "add", Table: "spacing", Lines: []Field{{"closest", "2"}}},
			"id = \"X\"\n", "id = \"X\"\n\n[spacing]\nclosest = 2\n"},
		{"a table goes with the line before it", Change{Do: "drop", Table: "room/0/fixture/1"},
			"\n[[room.fixture]]\nkind = \"toilet\"\n", ""},
	} {
		got, err := Apply(small, []Change{c.change})
		want := strings.Replace(small, c.old, c.now, 1)
		if err != nil || want == small {
			t.Errorf("%s: %v", c.name, err)
		}
		if diff := cmp.Diff(want, got); diff != "" {
			t.Errorf("%s: -want +got\n%s", c.name, diff)
		}
	}
}

func TestApplyRefuses(t *testing.T) {
	for _, c := range []Change{
		{Do: "set", Table: "room/1", Key: "name", Value: `"x"`},
		{Do: "set", Table: "room/0", Key: "fixture", Value: "1"},
		{Do: "set", Table: "job", Key: "title", Value: "\"a\"\n[x]"},
		{Do: "set", Table: "job", Key: "title = 1\nx", Value: "1"},
		{Do: "set", Table: "job", Key: "title", Value: "1 # 2\n"},
		{Do: "set", Table: "job", Key: "title", Value: "Bath"},
		{Do: "set", Table: "room/0", Key: "walls", Value: "[\"a\"\n] # ]"},
		{Do: "add", Table: "room/0/thermostat"},
		{Do: "add", Table: ""},
		{Do: "drop", Table: ""},
		{Do: "drop", Table: "room/0/fixture/7"},
		{Do: "drop", Table: "room/0/walls"},
		{Do: "set", Table: "room/name", Key: "name", Value: `"x"`},
		{Do: "set", Table: "room/-1", Key: "name", Value: `"x"`},
		{Do: "set", Table: "job/0", Key: "name", Value: `"x"`},
		{Do: "turn", Table: "job"},
	} {
		if got, err := Apply(small, []Change{c}); err == nil || got != small {
			t.Errorf("%+v: %v\n%s", c, err, got)
		}
	}
	second := []Change{{Do: "unset", Table: "job", Key: "title"}, {Do: "drop", Table: "room/9"}}
	if got, err := Apply(small, second); err == nil || got != small || !strings.HasPrefix(err.Error(),
		"change 2, drop of room/9: ") {
		t.Errorf("the second of two: %v", err)
	}
	inline := "spacing = {closest = 2}\n"
	if got, err := Apply(inline, []Change{{Do: "set", Table: "spacing", Key: "widest", Value: "4"}}); err != nil ||
		got != "spacing = {closest = 2, widest = 4}\n" {
		t.Errorf("a table in one line stays in it: %q, %v", got, err)
	}
	if got, err := Apply(inline, []Change{{Do: "set", Key: "spacing", Value: "{closest = 3}"}}); err != nil ||
		got != "spacing = {closest = 3}\n" {
		t.Errorf("%q, %v", got, err)
	}
	if got, err := Apply("[job]\ntitle = \"x\"\n", []Change{{Do: "set", Key: "units", Value: `"mm"`}}); err != nil ||
		got != "units = \"mm\"\n[job]\ntitle = \"x\"\n" {
		t.Errorf("a key of the file before its first table: %q, %v", got, err)
	}
	if got, err := Apply("a = [", []Change{{Do: "unset", Key: "a"}}); err == nil || got != "a = [" {
		t.Errorf("broken file: %q, %v", got, err)
	}
}

// The TOML library is the judge: after any change of the examples the file says what
// it said, but for what was to change, and its comments are all there.
func TestChangesTouchNothingElse(t *testing.T) {
	names, _ := filepath.Glob("../../../testdata/jobs/*.toml")
	if len(names) < 3 {
		t.Fatal("the examples are not where they were")
	}
	texts := []string{small}
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		texts = append(texts, string(data))
	}
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SampledFrom(texts).Draw(t, "file")
		tables, err := Tables(text)
		if err != nil {
			t.Fatal(err)
		}
		p := rapid.SampledFrom(tables).Draw(t, "table")
		got, err := Apply(text, []Change{{Do: "set", Table: p.Table, Key: "novel", Value: "7"}})
		if err != nil {
			t.Fatal(err)
		}
		back, err := Apply(got, []Change{{Do: "unset", Table: p.Table, Key: "novel"}})
		if err != nil || back != text && back != text+"\n" {
			t.Fatalf("set and unset of %s changes the file: %v\n%s", p.Table, err, cmp.Diff(text, back))
		}
		if len(p.Fields) == 0 {
			return
		}
		f := rapid.SampledFrom(p.Fields).Draw(t, "field")
		same, err := Apply(text, []Change{{Do: "set", Table: p.Table, Key: f.Key, Value: f.Value}})
		if err != nil || same != text {
			t.Fatalf("%s of %s set to what it is: %v\n%s", f.Key, p.Table, err, cmp.Diff(text, same))
		}
		other, err := Apply(text, []Change{{Do: "set", Table: p.Table, Key: f.Key, Value: `"other"`}})
		if err != nil {
			t.Fatal(err)
		}
		if n := differing(decoded(t, text), decoded(t, other)); n != 1 {
			t.Fatalf("%s of %s: %d values changed", f.Key, p.Table, n)
		}
	})
}

func decoded(t *rapid.T, text string) map[string]any {
	var v map[string]any
	if _, err := toml.Decode(text, &v); err != nil {
		t.Fatal(err)
	}
	return v
}

// differing counts the values that differ between two files of the same shape.
func differing(a, b any) int {
	switch a := a.(type) {
	case map[string]any:
		other, ok := b.(map[string]any)
		if !ok || !slices.Equal(slices.Sorted(maps.Keys(a)), slices.Sorted(maps.Keys(other))) {
			return 1
		}
		n := 0
		for k := range a {
			n += differing(a[k], other[k])
		}
		return n
	case []map[string]any:
		other, ok := b.([]map[string]any)
		if !ok || len(a) != len(other) {
			return 1
		}
		n := 0
		for i := range a {
			n += differing(a[i], other[i])
		}
		return n
	}
	if cmp.Equal(a, b) {
		return 0
	}
	return 1
}

func TestLiteral(t *testing.T) {
	for typed, want := range map[string]string{
		"2400": "2400", "1.5": "1.5", "true": "true", "2.40 m": `"2.40 m"`, `9ft 4-1/2"`: `"9ft 4-1/2\""`,
		`[0, 0]`: `[0, 0]`, `"x"`: `"x"`, "": `""`, `C:\new`: `"C:\\new"`, "{a = 1}": `"{a = 1}"`,
		"2026-11-24": "2026-11-24", "a\nb": `"a\u000Ab"`, "1 # one": `"1 # one"`,
	} {
		if got := Literal(typed); got != want {
			t.Errorf("Literal(%q) = %s, want %s", typed, got, want)
		}
	}
}

func TestParts(t *testing.T) {
	tables, err := Tables(small)
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, p := range tables {
		got = append(got, p.Table)
	}
	want := []string{"", "job", "room/0", "room/0/fixture/0", "room/0/fixture/1", "room/0/thermostat", "cable/0"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Error(diff)
	}
	if f := tables[3].Fields[0]; f != (Held{"kind", `"tub"`, "tub"}) || tables[3].Line != 14 {
		t.Errorf("%+v at line %d", f, tables[3].Line)
	}
}
