package layout_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
)

// wordless are packages that write figures for machines, or for those who work on this, not
// in words for readers.
var wordless = []string{"layout/say", "layout/internal", "drawing/internal", "drawing/svg", "drawing/pdf",
	"drawing/dxf", "cmd/contact", "cmd/mutants", "cmd/dist"}

// rounded matches a figure with a rounding of its own and the unit behind it.
var rounded = regexp.MustCompile(`%[-+ #0-9.*]*[efg] ?((V|A|mA|W|nF|kWh|K|pegs?|ft|m)\b|[kM]?Ω|°|%%|m²|ft²)` +
	`|%[-+ #0-9*]*\.[0-9*]+[efg] ?(mm|in)\b`)

// TestFiguresAreWordedInSay: a quantity has one rounding and one wording, in layout/say. A
// format elsewhere that rounds one and puts a unit behind it is a second. Only an error that
// hands back a figure that is not usable shows it as it is, with %g.
func TestFiguresAreWordedInSay(t *testing.T) {
	for _, root := range []string{"../layout", "../drawing", "../cmd"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			slashed := strings.TrimPrefix(filepath.ToSlash(path), "../")
			for _, w := range wordless {
				if strings.HasPrefix(slashed, w+"/") || strings.Contains(slashed, "/testdata/") {
					return err
				}
			}
			if err != nil || !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return err
			}
			return roundedIn(t, path)
		})
		if err != nil {
			t.Fatal(err)
		}
	}
}

// roundedIn finds the formats of a file that round a quantity themselves.
func roundedIn(t *testing.T, path string) error {
	set := token.NewFileSet()
	file, err := parser.ParseFile(set, path, nil, 0)
	if err != nil {
		return err
	}
	var errorf *ast.CallExpr
	ast.Inspect(file, func(n ast.Node) bool {
		if call, ok := n.(*ast.CallExpr); ok {
			if f, ok := call.Fun.(*ast.SelectorExpr); ok && (f.Sel.Name == "Errorf" || f.Sel.Name == "Sscanf") {
				errorf = call
			}
		}
		lit, ok := n.(*ast.BasicLit)
		if !ok || lit.Kind != token.STRING {
			return true
		}
		said := rounded.FindString(lit.Value)
		unusable := errorf != nil && errorf.Pos() <= lit.Pos() && lit.End() <= errorf.End() &&
			(strings.Contains(said, "%g") || strings.Contains(said, "%+g") || strings.Contains(said, "%f"))
		if said != "" && !unusable {
			t.Errorf("%s: %q rounds a quantity itself", set.Position(lit.Pos()), said)
		}
		return true
	})
	return nil
}
