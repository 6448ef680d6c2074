package asjson

import (
	"bytes"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
)

func TestWriteKeepsTextReadable(t *testing.T) {
	var b bytes.Buffer
	if err := Write(&b, map[string]any{"name": "Bath & <WC>", "at": []int{1, 2}}); err != nil {
		t.Fatal(err)
	}
	const want = "{\n \"at\": [\n  1,\n  2\n ],\n \"name\": \"Bath & <WC>\"\n}\n"
	if b.String() != want {
		t.Errorf("got %q, want %q", b.String(), want)
	}
}

// Nothing else makes an indented document: two forms would drift apart.
func TestOnlyWriter(t *testing.T) {
	root := filepath.Join("..", "..")
	out, err := exec.Command("grep", "-rlE", `SetIndent\(|MarshalIndent\(`, "--include=*.go", root).Output()
	if err != nil {
		t.Fatal(err)
	}
	for _, name := range strings.Fields(string(out)) {
		if !strings.HasSuffix(name, "_test.go") && filepath.Base(name) != "asjson.go" {
			t.Errorf("%s writes JSON by itself: use asjson.Write", name)
		}
	}
}
