package published

import (
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// The list of check values names every file of figures, and no test that is
// not in the package it says.
func TestReadmeNamesWhatThereIs(t *testing.T) {
	const root = "../../.."
	data, err := os.ReadFile(root + "/testdata/tables/README.md")
	if err != nil {
		t.Fatal(err)
	}
	files, err := filepath.Glob(root + "/testdata/tables/*.csv")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	for _, f := range files {
		if !strings.Contains(string(data), "`"+filepath.Base(f)+"`") {
			t.Errorf("%s is not listed", filepath.Base(f))
		}
	}
	held := heldTables(t, root)
	for _, f := range files {
		if !strings.Contains(held, `Holds(t, "`+filepath.Base(f)+`"`) {
			t.Errorf("no package holds its figures against %s", filepath.Base(f))
		}
	}
	parts := strings.Split(string(data), "\n## ")[1:]
	for _, part := range parts {
		head, rest, _ := strings.Cut(part, "\n")
		folder := regexp.MustCompile("`(layout[a-z/]*)`").FindStringSubmatch(head)
		if folder == nil {
			t.Errorf("%q names no package", head)
			continue
		}
		tests := testsOf(t, filepath.Join(root, folder[1]))
		for _, name := range regexp.MustCompile(`Test[A-Z]\w*`).FindAllString(rest, -1) {
			if !strings.Contains(tests, "func "+name+"(") {
				t.Errorf("%s has no %s", folder[1], name)
			}
		}
	}
	if len(parts) < 6 {
		t.Errorf("only %d parts found", len(parts))
	}
}

// heldTables returns the text of the tests that tables are held by.
func heldTables(t *testing.T, root string) string {
	t.Helper()
	files, err := filepath.Glob(root + "/layout/*/tables_test.go")
	if err != nil || len(files) == 0 {
		t.Fatal(files, err)
	}
	all := ""
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		all += string(data)
	}
	return all
}

// testsOf returns the text of a package's tests.
func testsOf(t *testing.T, folder string) string {
	t.Helper()
	files, err := filepath.Glob(folder + "/*_test.go")
	if err != nil || len(files) == 0 {
		t.Fatal(folder, err)
	}
	var b strings.Builder
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			t.Fatal(err)
		}
		b.Write(data)
	}
	return b.String()
}
