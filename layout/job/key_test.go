package job

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"oxturn/layout/job/tree"
	"oxturn/layout/plane"
)

func TestKeysAreWhole(t *testing.T) {
	s := newSchema(Keys())
	if len(s.byPath) != len(Keys()) {
		t.Errorf("%d keys have %d paths", len(Keys()), len(s.byPath))
	}
	for _, k := range Keys() {
		if k.Doc == "" || strings.HasSuffix(k.Doc, ".") {
			t.Errorf("%s: doc %q", k.Path, k.Doc)
		}
		if k.Default != "" && k.Otherwise != "" || k.Required && k.Default != "" {
			t.Errorf("%s: more than one answer to what holds when it is left out", k.Path)
		}
		if p, ok := s.byPath[k.Parent()]; k.Parent() != "" && (!ok || p.Type != TypeTable && p.Type != TypeTables) {
			t.Errorf("%s stands in no table", k.Path)
		}
		if (k.Type == TypeChoice || k.Type == TypeChoices) != (k.Values != nil) {
			t.Errorf("%s: type %s with values %v", k.Path, k.Type, k.Values)
		}
	}
}

// TestExamplesAndDefaultsAreTaken reads every example and default of the list
// with the code that reads job files.
func TestExamplesAndDefaultsAreTaken(t *testing.T) {
	s := newSchema(Keys())
	for _, k := range Keys() {
		root, err := tree.Parse([]byte(k.Example))
		if err != nil {
			t.Errorf("%s: example %s: %v", k.Path, k.Example, err)
			continue
		}
		rd := newReader(&Report{}, s, "", []byte(k.Example))
		rd.units = plane.Millimetres
		if k.Type == TypeTable || k.Type == TypeTables {
			if !strings.HasPrefix(k.Example, k.Header()) {
				t.Errorf("%s: example begins %.20q", k.Path, k.Example)
			}
			continue
		}
		n := root.Get(k.Name())
		if n == nil {
			t.Errorf("%s: example %q gives another key", k.Path, k.Example)
			continue
		}
		if _, bad := rd.parse(n, k); bad != nil {
			t.Errorf("%s: example: %s", k.Path, bad.message)
		}
		if k.Default != "" && s.presets[k.Path] == nil {
			t.Errorf("%s: default %s is not taken", k.Path, k.Default)
		}
		if k.DefaultIn != "" && (k.Default == "" || s.inInches[k.Path] == nil) {
			t.Errorf("%s: default %s of a job in inches is not taken", k.Path, k.DefaultIn)
		}
	}
}

// everyKey are the good files that together have every key: the first has all but those that exclude others.
var everyKey = []string{"every-key.toml", "uneven.toml", "strips.toml"}

// TestEveryKeyIsTried keeps the good files that have every key complete.
func TestEveryKeyIsTried(t *testing.T) {
	seen := map[string]bool{}
	var walk func(n *tree.Node, path string)
	walk = func(n *tree.Node, path string) {
		seen[path] = true
		for _, f := range n.Fields {
			walk(f, join(path, f.Name))
		}
		for _, it := range n.Items {
			walk(it, path)
		}
	}
	for _, name := range everyKey {
		data, err := os.ReadFile(filepath.Join("testdata/good", name))
		if err != nil {
			t.Fatal(err)
		}
		root, err := tree.Parse(data)
		if err != nil {
			t.Fatal(err)
		}
		walk(root, "")
	}
	for _, k := range Keys() {
		if !seen[k.Path] {
			t.Errorf("%s have no %s", strings.Join(everyKey, ", "), k.Path)
		}
	}
}

// TestEveryNameAskedForIsListed looks in the code for names of keys that are
// not in the list, which would silently read as left out.
func TestEveryNameAskedForIsListed(t *testing.T) {
	s := newSchema(Keys())
	asks := regexp.MustCompile(
		`\.(?:` + strings.Join(strings.Fields(`num numOr whole text texts flag flagOr date point points
			pair pack has each sub source at atItem key read`), "|") + `)\("([a-z_]+)"`)
	found := 0
	for _, file := range goFiles(t) {
		for _, m := range asks.FindAllStringSubmatch(file, -1) {
			found++
			if s.byName[m[1]] == nil {
				t.Errorf("the code asks for %q, which is not in the list of keys", m[1])
			}
		}
	}
	if found < 100 {
		t.Errorf("only %d names found; the pattern is out of date", found)
	}
}

// goFiles returns the package's code without its tests.
func goFiles(t *testing.T) []string {
	t.Helper()
	var out []string
	for _, f := range glob(t, "*.go") {
		if strings.HasSuffix(f, "_test.go") {
			continue
		}
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, string(data))
	}
	return out
}

// TestEveryKeyIsRead: a key of the list that nobody asks for would have its help
// and its place in the schema, and do nothing.
func TestEveryKeyIsRead(t *testing.T) {
	asked := map[string]bool{}
	for _, name := range everyKey {
		data, err := os.ReadFile(filepath.Join("testdata/good", name))
		if err != nil {
			t.Fatal(err)
		}
		_, report := read(name, data, opener("testdata/good"), asked)
		if report.Errors() > 0 {
			t.Errorf("%s: %v", name, report.Diagnostics())
		}
	}
	asked["units"] = true // read before all others, which it gives their meaning
	for _, k := range Keys() {
		if !asked[k.Path] {
			t.Errorf("%s is in the list of keys, but nothing reads it", k.Path)
		}
	}
}
