package golden

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// TestPage: both drawings stand on the page, and a file's name or text can
// bring nothing else into it.
func TestPage(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	path := changes{{Name: "a<b>.svg", Old: []byte("<svg>old</svg>"), New: []byte("<svg>new</svg>")}}.write(t)
	page, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	// base64 by another program
	for _, want := range []string{"a&lt;b&gt;.svg", "PHN2Zz5vbGQ8L3N2Zz4", "PHN2Zz5uZXc8L3N2Zz4"} {
		if !strings.Contains(string(page), want) {
			t.Errorf("no %q in %s", want, page)
		}
	}
	if changes(nil).write(t) != "" {
		t.Error("a page of nothing")
	}
}

// TestFiles: what is kept passes, and where -update is given what is new is
// taken and what is left over goes.
func TestFiles(t *testing.T) {
	t.Setenv("TMPDIR", t.TempDir())
	folder := t.TempDir()
	for _, files := range []map[string][]byte{
		{"a.txt": []byte("one\n"), "b.txt": []byte("two\n")},
		{"a.txt": []byte("three\n"), "c.txt": nil},
	} {
		*updateFlag = true
		Files(t, folder, files)
		*updateFlag = false
		Files(t, folder, files)
		kept, err := os.ReadDir(folder)
		if err != nil || len(kept) != len(files) {
			t.Errorf("%d files are kept, %v", len(kept), err)
		}
	}
	if data, err := os.ReadFile(filepath.Join(folder, "a.txt")); err != nil || string(data) != "three\n" {
		t.Errorf("a.txt holds %q, %v", data, err)
	}
}

// TestFirstDifference: a change is named by its line, also where one text ends
// before the other.
func TestFirstDifference(t *testing.T) {
	for want, pair := range map[string][2]string{
		`line 2: "x", was "b"`: {"a\nx\nc", "a\nb\nc"},
		"line 3":               {"a\nb\nc", "a\nb"},
	} {
		if got := firstDifference([]byte(pair[0]), []byte(pair[1])); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}
