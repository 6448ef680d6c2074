package main

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/drawing/web/page"
)

// engineFolder is where builds with the tag "page" look for the engine.
const engineFolder = "drawing/web/page/engine"

// A system is what a build is for.
type system struct{ os, arch string }

var systems = []system{{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"},
	{"windows", "amd64"}, {"windows", "arm64"}}

// build compiles the command; what it is built with is all that its bytes depend on.
func (s system) build(to string, more ...string) error {
	cmd := exec.Command("go", slices.Concat([]string{"build", "-trimpath", "-buildvcs=false", "-ldflags",
		"-s -w -buildid= -X main.describedVersion=" + described(), "-o", to}, more, []string{"./cmd/oxturn"})...)
	cmd.Env = s.environment()
	cmd.Stderr = os.Stderr
	return cmd.Run()
}

// environment asks for the oldest processors of a system, whatever this machine builds for.
func (s system) environment() []string {
	return append(os.Environ(), "GOOS="+s.os, "GOARCH="+s.arch, "GOAMD64=v1", "GOARM64=v8.0", "CGO_ENABLED=0")
}

// described is the version by the tags of the checkout, empty where it has none.
func described() string {
	out, err := exec.Command("git", "describe", "--tags", "--always", "--dirty").Output()
	if err != nil {
		return ""
	}
	return strings.TrimSpace(string(out))
}

// buildEngine compiles the command for browsers, packs it, and leaves it where builds
// with the page look for it.
func buildEngine() (page.Engine, error) {
	var e page.Engine
	out, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return e, err
	}
	root := strings.TrimSpace(string(out))
	if e.Support, err = os.ReadFile(filepath.Join(root, "lib", "wasm", "wasm_exec.js")); err != nil {
		return e, fmt.Errorf("this Go lacks its script for browsers: %w", err)
	}
	if err := os.MkdirAll(engineFolder, folderMode); err != nil {
		return e, err
	}
	work, err := os.MkdirTemp("", "engine")
	if err != nil {
		return e, err
	}
	defer os.RemoveAll(work)
	instead, err := methodsUnsought(root, work)
	if err != nil {
		return e, err
	}
	program := filepath.Join(work, "engine.wasm")
	if err := (system{"js", "wasm"}).build(program, "-overlay", instead); err != nil {
		return e, err
	}
	plain, err := os.ReadFile(program)
	if err != nil {
		return e, err
	}
	if e.Packed, err = packed(plain); err != nil {
		return e, err
	}
	for name, data := range map[string][]byte{"engine.wasm.gz": e.Packed, "wasm_exec.js": e.Support} {
		if err := os.WriteFile(filepath.Join(engineFolder, name), data, fileMode); err != nil {
			return e, err
		}
	}
	return e, nil
}

// methodsUnsought writes what the engine is compiled with instead of one line of the toolchain's
// text/template, which looks for methods by names that it reads as it runs: for that the linker
// keeps every method of every type, a fifth of the engine. Our templates ask for fields alone; what
// they make in the engine is held to what they make in the command, byte for byte.
func methodsUnsought(root, work string) (string, error) {
	const sought, unsought = "ptr.MethodByName(fieldName)", "(reflect.Value{})"
	name := filepath.Join(root, "src", "text", "template", "exec.go")
	source, err := os.ReadFile(name)
	if err != nil {
		return "", err
	}
	if n := bytes.Count(source, []byte(sought)); n != 1 {
		return "", fmt.Errorf("%s has %s %d times, not once: see what this Go does there", name, sought, n)
	}
	changed := filepath.Join(work, "exec.go")
	if err := os.WriteFile(changed, bytes.Replace(source, []byte(sought), []byte(unsought), 1), fileMode); err != nil {
		return "", err
	}
	list, err := json.Marshal(map[string]any{"Replace": map[string]string{name: changed}})
	if err != nil {
		return "", err
	}
	overlay := filepath.Join(work, "overlay.json")
	return overlay, os.WriteFile(overlay, list, fileMode)
}

func packed(data []byte) ([]byte, error) {
	var b bytes.Buffer
	z, err := gzip.NewWriterLevel(&b, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	err = z.Close()
	return b.Bytes(), err
}
