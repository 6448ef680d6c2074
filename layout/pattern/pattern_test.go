package pattern_test

import (
	"os"
	"os/exec"
	"strings"
	"testing"

	"oxturn/layout/pattern"
)

func TestOf(t *testing.T) {
	day := pattern.Of(`^\d{4}-\d\d$`)
	if first, again := day(), day(); first != again {
		t.Error("it is compiled anew at every use")
	}
	if !day().MatchString("2026-11") || day().MatchString("11-2026") {
		t.Error("the expression is another one")
	}
}

// What is compiled at every start is paid by every run, also by those that print a
// version.
func TestNothingIsCompiledAtStart(t *testing.T) {
	out, err := exec.Command("go", "list", "-f", `{{$d := .Dir}}{{range .GoFiles}}{{$d}}/{{.}}{{"\n"}}{{end}}`,
		"oxturn/...").Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, file := range strings.Fields(string(out)) {
		for n, line := range linesOf(t, file) {
			atTop := strings.HasPrefix(line, "var ") ||
				strings.HasPrefix(line, "\t") && !strings.HasPrefix(line, "\t\t")
			if atTop && strings.Contains(line, " regexp.MustCompile(") && !strings.Contains(line, ":=") &&
				!strings.Contains(line, "return") {
				t.Errorf("%s:%d: compiled at every start; pattern.Of compiles it where it is used", file, n+1)
			}
		}
	}
}

func linesOf(t *testing.T, file string) []string {
	t.Helper()
	data, err := os.ReadFile(file)
	if err != nil {
		t.Fatal(err)
	}
	return strings.Split(string(data), "\n")
}
