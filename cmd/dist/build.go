package main

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
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
func (s system) build(to string, tags string) error {
	cmd := exec.Command("go", "build", "-trimpath", "-buildvcs=false", "-tags", tags, "-ldflags",
		"-s -w -buildid= -X main.describedVersion="+described(), "-o", to, "./cmd/oxturn")
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
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return e, err
	}
	if e.Support, err = os.ReadFile(filepath.Join(strings.TrimSpace(string(root)), "lib", "wasm",
		"wasm_exec.js")); err != nil {
		return e, fmt.Errorf("this Go lacks its script for browsers: %w", err)
	}
	if err := os.MkdirAll(engineFolder, folderMode); err != nil {
		return e, err
	}
	program := filepath.Join(engineFolder, "engine.wasm")
	defer os.Remove(program)
	if err := (system{"js", "wasm"}).build(program, ""); err != nil {
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
