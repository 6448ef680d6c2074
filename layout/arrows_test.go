package layout_test

import (
	"os"
	"os/exec"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// floors are the packages of the house from the ground up. One reaches only those on
// the floors below it, so that data flows one way: job file, plan, sheets, bytes.
var floors = [][]string{
	{"layout/pattern", "layout/internal/module", "layout/gocode"},
	{"fonts", "layout/money", "layout/language",
		"layout/plane", "layout/circuit", "layout/asjson", "layout/job/tree", "layout/skip", "layout/golden",
		"layout/spend", "layout/internal/published"},
	{"layout/say", "layout/spend/intests", "drawing/web/viewer"},
	{"layout/route", "layout/heat", "layout/membrane", "layout/plancode", "layout/record", "layout/photo", "drawing"},
	{"layout/job", "symbols", "drawing/svg", "drawing/pdf", "drawing/internal/outside", "drawing/web/preview",
		"drawing/web/page", "drawing/web/headless"},
	{"layout/tiling"},
	{"layout/job/edit", "layout/draft", "layout/takeoff", "layout/internal/hand", "layout/internal/camera",
		"drawing/signs",
		"drawing/internal/specimen"},
	{"layout", "layout/arrange", "drawing/lettering"},
	{"layout/tube", "layout/load", "layout/compare", "layout/passport", "layout/calendar", "layout/handover",
		"layout/warmth", "drawing/setting"},
	{"layout/refit", "drawing/floorplan"},
	{"layout/aslaid"},
	{"layout/build"},
	{"layout/figures", "layout/probe", "layout/internal/trial"},
	{"drawing/sheets", "drawing/dxf", "drawing/web/ownersmap"},
	{"cmd/oxturn", "cmd/contact", "cmd/mutants", "cmd/dist"},
}

// never are arrows that the floors alone would allow.
var never = []struct{ pkg, reaches string }{
	{"layout/build", "drawing"}, {"layout/build", "symbols"}, {"layout/build", "fonts"},
	{"layout/figures", "drawing"}, {"layout/probe", "drawing"},
	{"layout/heat", "layout/job"}, {"layout/circuit", "layout/plane"}, {"drawing/lettering", "layout"},
	{"drawing/signs", "layout"},
	{"drawing/svg", "drawing/pdf"}, {"drawing/pdf", "drawing/svg"}, {"drawing/svg", "layout"},
	{"drawing/pdf", "layout"},
	{"drawing", "layout/build"}, {"drawing/sheets", "layout/build"}, {"drawing/web/ownersmap", "layout/build"},
	{"drawing/dxf", "layout/build"},
	{"layout/figures", "layout/build"}, {"layout/probe", "layout/build"},
	{"drawing/sheets", "drawing/svg"}, {"drawing/sheets", "drawing/pdf"},
}

// neverItself are arrows that one may have by others, but not itself: what is below
// has a door there.
var neverItself = []struct{ pkg, reaches string }{
	{"cmd/oxturn", "layout/job/tree"},
}

func TestArrows(t *testing.T) {
	reaches := imports(t)
	for pkg, all := range reaches {
		for _, other := range all {
			if floorOf(t, other) >= floorOf(t, pkg) {
				t.Errorf("%s reaches %s, which is not below it", pkg, other)
			}
		}
	}
	for _, n := range never {
		if all := below(reaches, n.pkg, map[string]bool{}); all[n.reaches] {
			t.Errorf("%s reaches %s", n.pkg, n.reaches)
		}
	}
	for _, n := range neverItself {
		if slices.Contains(reaches[n.pkg], n.reaches) {
			t.Errorf("%s imports %s", n.pkg, n.reaches)
		}
	}
}

// imports lists what the packages of the module import of it.
func imports(t *testing.T) map[string][]string {
	t.Helper()
	cmd := exec.Command("go", "list", "-f", "{{.ImportPath}} {{join .Imports \" \"}}", "oxturn/...")
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("go list: %v\n%s", err, out)
	}
	all := map[string][]string{}
	for line := range strings.Lines(string(out)) {
		words := strings.Fields(line)
		pkg := strings.TrimPrefix(words[0], "oxturn/")
		all[pkg] = nil
		for _, w := range words[1:] {
			if other, ours := strings.CutPrefix(w, "oxturn/"); ours {
				all[pkg] = append(all[pkg], other)
			}
		}
	}
	return all
}

func floorOf(t *testing.T, pkg string) int {
	t.Helper()
	i := slices.IndexFunc(floors, func(on []string) bool { return slices.Contains(on, pkg) })
	if i < 0 {
		t.Errorf("%s is on no floor", pkg)
	}
	return i
}

// below is what a package reaches, by others too.
func below(reaches map[string][]string, pkg string, seen map[string]bool) map[string]bool {
	for _, other := range reaches[pkg] {
		if !seen[other] {
			seen[other] = true
			below(reaches, other, seen)
		}
	}
	return seen
}

// TestArrowsOfThePicture: DEVELOPERS.md draws the house as it is. Of a column whose packages
// stand each on those below it, none reaches one above it; of the row of phases, none reaches
// a later one; and every package is in the picture.
func TestArrowsOfThePicture(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	picture := strings.Split(string(text), "```")[1]
	reaches := imports(t)
	steps, sheets := columnsOf(picture)
	if len(steps) < 8 || len(sheets) < 6 {
		t.Fatalf("the columns are read as %q and %q", steps, sheets)
	}
	for _, order := range [][]string{steps, sheets, phasesOf(t, picture)} {
		for i, pkg := range order {
			if _, known := reaches[pkg]; !known {
				t.Errorf("the picture has %s, which is no package", pkg)
			}
			all := below(reaches, pkg, map[string]bool{})
			for _, above := range order[:i] {
				if all[above] {
					t.Errorf("%s reaches %s, which the picture has above it", pkg, above)
				}
			}
		}
	}
	named := regexp.MustCompile(`\b(layout|drawing|symbols|fonts|cmd)(/[a-z]+)*\b`).FindAllString(picture, -1)
	for pkg := range reaches {
		if !strings.Contains(pkg, "internal/") && !strings.Contains(pkg, "testdata/") && !slices.Contains(named, pkg) {
			t.Errorf("%s is not in the picture", pkg)
		}
	}
}

// columnsOf are the two columns of packages that stand each on those below it, from above.
func columnsOf(picture string) (steps, sheets []string) {
	_, rows, _ := strings.Cut(picture, "each on those below it")
	rows, _, _ = strings.Cut(rows, "\n\n")
	left, right := regexp.MustCompile(`^   (layout\S*)`), regexp.MustCompile(`  (drawing\S*?)(, (symbols))? {2,}`)
	for row := range strings.Lines(rows) {
		if m := left.FindStringSubmatch(row); m != nil {
			steps = append(steps, m[1])
		}
		if m := right.FindStringSubmatch(row); m != nil {
			if m[3] != "" { // beside each other: the second stands on the first
				sheets = append(sheets, m[3])
			}
			sheets = append(sheets, m[1])
		}
	}
	return steps, sheets
}

// phasesOf are the packages of the row of phases, the last first: data flows from the reading
// of a job over its plan to the sheets, and none knows what becomes of what it gives.
func phasesOf(t *testing.T, picture string) []string {
	row, _, _ := strings.Cut(strings.TrimSpace(picture), "\n")
	var out []string
	for _, p := range []struct{ says, pkg string }{{"bytes", "drawing/svg"}, {"drawing/sheets", "drawing/sheets"},
		{"build.Plan", "layout/build"}, {"layout.Plan", "layout"}, {"job.Job", "layout/job"}} {
		if !strings.Contains(row, "─► "+p.says) {
			t.Errorf("no arrow of the picture leads to %s", p.says)
		}
		out = append(out, p.pkg)
	}
	if strings.Index(row, "build.Plan") > strings.Index(row, "layout.Plan") {
		t.Error("a plan is built before it is there")
	}
	return out
}
