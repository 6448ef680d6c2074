// Package module lets tests find the files of the module from wherever in it they run.
package module

import (
	"os"
	"path/filepath"
	"testing"
)

// deepest is more folders than stand between any package and the module's own.
const deepest = 40

// Testdata is the path of a file of the module's testdata. A path kept by the compiler
// would be gone from a build with -trimpath.
func Testdata(t testing.TB, names ...string) string {
	t.Helper()
	dir := "."
	for range deepest {
		if _, err := os.Stat(filepath.Join(dir, "go.mod")); err == nil {
			return filepath.Join(append([]string{dir, "testdata"}, names...)...)
		}
		dir = filepath.Join(dir, "..")
	}
	t.Fatal("no go.mod above the test")
	return ""
}
