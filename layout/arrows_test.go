package layout_test

import (
	"os/exec"
	"strings"
	"testing"
)

// Data flows one way: job file, plan, sheets, bytes. Each row names a package
// and what it must never reach.
func TestArrows(t *testing.T) {
	for _, c := range []struct{ pkg, never string }{
		{"oxturn/layout", "oxturn/drawing"},
		{"oxturn/layout", "oxturn/symbols"},
		{"oxturn/layout", "oxturn/fonts"},
		{"oxturn/layout/route", "oxturn/layout/job"},
		{"oxturn/layout/plane", "oxturn/layout/job"},
		{"oxturn/layout/heat", "oxturn/layout/job"},
		{"oxturn/drawing", "oxturn/layout/job"},
		{"oxturn/drawing/svg", "oxturn/drawing/pdf"},
		{"oxturn/drawing/pdf", "oxturn/drawing/svg"},
		{"oxturn/drawing/sheets", "oxturn/drawing/svg"},
		{"oxturn/drawing/sheets", "oxturn/drawing/pdf"},
	} {
		out, err := exec.Command("go", "list", "-deps", c.pkg).CombinedOutput()
		if err != nil {
			t.Fatalf("go list %s: %v\n%s", c.pkg, err, out)
		}
		for _, dep := range strings.Fields(string(out)) {
			if dep == c.never || strings.HasPrefix(dep, c.never+"/") {
				t.Errorf("%s reaches %s", c.pkg, dep)
			}
		}
	}
}
