package main

import (
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

func readme(t *testing.T) string {
	t.Helper()
	data, err := os.ReadFile("../../README.md")
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// TestReadmeLinks follows every link to a file of this house.
func TestReadmeLinks(t *testing.T) {
	links := regexp.MustCompile(`\]\(([^)#:]+)\)`).FindAllStringSubmatch(readme(t), -1)
	for _, m := range links {
		if _, err := os.Stat(filepath.Join("../..", m[1])); err != nil {
			t.Errorf("a link leads nowhere: %v", err)
		}
	}
	if len(links) < 20 {
		t.Errorf("only %d links were found", len(links))
	}
}

// TestReadmeJob reads and plans the job that is shown.
func TestReadmeJob(t *testing.T) {
	_, rest, _ := strings.Cut(readme(t), "```toml\n")
	text, _, found := strings.Cut(rest, "```\n")
	if !found {
		t.Fatal("no job is shown")
	}
	if _, said, code := call(t, "check", jobFile(t, text), "--strict"); code != exitOK {
		t.Errorf("exit code %d: %s", code, said)
	}
}

// TestReadmeCommands looks for each verb, topic and flag that is shown.
func TestReadmeCommands(t *testing.T) {
	text := regexp.MustCompile(`\$\([^)]*\)`).ReplaceAllString(readme(t), "") // what other commands print
	shown := regexp.MustCompile("(?m)(?:^ {4,}|`|/cmd/)oxturn ([a-z]+)([^#`\n]*)").FindAllStringSubmatch(text, -1)
	for _, m := range shown {
		v, ok := verbNamed(m[1])
		if !ok {
			t.Errorf("there is no verb %q", m[1])
		}
		for _, word := range strings.Fields(m[2]) {
			known := func(f helpFlag) bool { return f.name == word }
			if strings.HasPrefix(word, "-") && word != "-" && !slices.ContainsFunc(helpFlags(v), known) {
				t.Errorf("oxturn %s has no flag %s", m[1], word)
			}
		}
	}
	if len(shown) < 20 {
		t.Errorf("only %d commands were found", len(shown))
	}
}
