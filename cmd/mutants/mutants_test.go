package main

import (
	"bytes"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

func TestSample(t *testing.T) {
	var out bytes.Buffer
	same := filepath.Join(t.TempDir(), "same.txt")
	list := "testdata/sample/sample.go Half: func Half(a Length) Length { return (a [+ => -] 0.0) / 2 }\n\tadds " +
		"nothing\n"
	if err := os.WriteFile(same, []byte(list), 0o600); err != nil {
		t.Fatal(err)
	}
	of := settings{parallel: 2, same: same, grace: time.Second / 5}
	if err := run(&out, of, []string{"./testdata/sample"}); err != nil {
		t.Fatal(err)
	}
	got := strings.Split(strings.TrimSpace(out.String()), "\n")
	slices.Sort(got)
	want := []string{
		"oxturn/cmd/mutants/testdata/sample: 88.5 % killed: 23 of 26 tried (1 by hanging), 3 survived (1 that no " +
			"test reaches);" +
			" 1 change nothing; 27 mutants in all",
		"survived  testdata/sample/sample.go:20 Count: if v >= low && v < high || v == high[- => +]1 {",
		"survived  testdata/sample/sample.go:38 Most: most := of[[0 => 1]]",
		"unreached testdata/sample/sample.go:14 Forgotten: func Forgotten(a int) int { return a [* => /] 3 }",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// No test is quick enough for a nanosecond: none is asked.
func TestSlowTestsAreNotAsked(t *testing.T) {
	var out bytes.Buffer
	same := filepath.Join(t.TempDir(), "same.txt")
	if err := os.WriteFile(same, nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if err := run(&out, settings{parallel: 1, same: same, within: 1, sample: 5, grace: time.Second},
		[]string{"./testdata/sample"}); err != nil {
		t.Fatal(err)
	}
	if want := "0 of 5 tried (0 by hanging), 5 survived (5 that no test reaches)"; !strings.Contains(out.String(),
		want) {
		t.Errorf("want %q in\n%s", want, out.String())
	}
}

// Listed mutants are those of the code as it is, or a reason outlives its code.
func TestListedMutantsExist(t *testing.T) {
	t.Chdir("../..")
	same, err := readSame("cmd/mutants/same.txt")
	if err != nil {
		t.Fatal(err)
	}
	folders := map[string]bool{}
	for key := range same.keys {
		folders["./"+filepath.ToSlash(filepath.Dir(strings.Fields(key)[0]))] = true
	}
	pkgs, err := load(slices.Collect(maps.Keys(folders)))
	if err != nil {
		t.Fatal(err)
	}
	found := map[string]bool{}
	for _, p := range pkgs {
		mutants, _ := findAll(p, "")
		for _, m := range mutants {
			found[m.key()] = true
		}
	}
	for key := range same.keys {
		if !found[key] {
			t.Errorf("same.txt lists what is no mutant any more: %s", key)
		}
	}
}
