package skip

import (
	"fmt"
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"strings"
	"testing"
)

// TestNobodySkipsOtherwise goes through every Go file of the project.
func TestNobodySkipsOtherwise(t *testing.T) {
	files := 0
	err := filepath.WalkDir("../..", func(path string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || !strings.HasSuffix(path, ".go") || filepath.Base(path) == "skip.go" {
			return err
		}
		files++
		fset := token.NewFileSet()
		file, err := parser.ParseFile(fset, path, nil, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		for _, at := range direct(file) {
			t.Errorf("%s leaves a test out without a listed reason; use skip.Test", fset.Position(at))
		}
		return nil
	})
	if err != nil || files < 500 {
		t.Fatalf("%d files read: %v", files, err)
	}
}

func direct(file *ast.File) (at []token.Pos) {
	ast.Inspect(file, func(n ast.Node) bool {
		if s, ok := n.(*ast.SelectorExpr); ok && (s.Sel.Name == "Skip" || s.Sel.Name == "Skipf" ||
			s.Sel.Name == "SkipNow") {
			at = append(at, s.Pos())
		}
		return true
	})
	return at
}

func TestDirectIsSeen(t *testing.T) {
	for _, call := range []string{"t.Skip()", `t.Skipf("%d", 1)`, "t.SkipNow()", "defer t.Skip()"} {
		src := "package p\nfunc f(t T) { " + call + " }"
		file, err := parser.ParseFile(token.NewFileSet(), "p.go", src, 0)
		if err != nil || len(direct(file)) != 1 {
			t.Errorf("%s is not seen (%v)", call, err)
		}
	}
}

// told notes what a test was told.
type told struct{ skipped, failed string }

func (*told) Helper()                        {}
func (f *told) Skipf(s string, args ...any)  { f.skipped = fmt.Sprintf(s, args...) }
func (f *told) Fatalf(s string, args ...any) { f.failed = fmt.Sprintf(s, args...) }

func TestMissingProgramFailsWhereItIsRequired(t *testing.T) {
	for _, c := range []struct {
		required string
		why      Reason
		fails    bool
	}{{"1", NoProgram, true}, {"", NoProgram, false}, {"1", NoMount, false}, {"1", OtherCase, false}} {
		t.Setenv("OXTURN_REQUIRE_TOOLS", c.required)
		var got told
		Test(&got, c.why, "qpdf")
		if (got.failed != "") != c.fails || !strings.HasSuffix(got.failed+got.skipped, ": qpdf") {
			t.Errorf("%+v: %+v", c, got)
		}
	}
}
