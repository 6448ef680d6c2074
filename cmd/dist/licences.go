package main

import (
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"

	"oxturn/drawing/web/page"
	"oxturn/drawing/web/viewer"
	"oxturn/layout/pattern"
)

// legalText is what files are called that say under what terms a work is given.
var legalText = pattern.Of(`(?i)^(licen[cs]e|copying|notice|third)`)

// licences are the terms of all works that the command has in it on any of the systems, by
// the works' names, with those of the Go toolchain whose library and script it has, and of the
// works in the page's editor and in what takes its gestures.
func licences(all []system) (map[string][]byte, error) {
	root, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		return nil, err
	}
	folders := map[string]string{"go": strings.TrimSpace(string(root))}
	for _, s := range append([]system{{"js", "wasm"}}, all...) {
		linked, err := s.linked()
		if err != nil {
			return nil, err
		}
		maps.Copy(folders, linked)
	}
	out := map[string][]byte{}
	for work, dir := range folders {
		if out[work], err = legalTexts(dir); err != nil {
			return nil, fmt.Errorf("%s: %w", work, err)
		}
	}
	out["the page's editor"] = page.EditorLicences
	out["the page's gestures"] = viewer.Licences
	return out, nil
}

// linked are the modules that a build for a system takes code of, with where they lie.
func (s system) linked() (map[string]string, error) {
	cmd := exec.Command("go", "list", "-deps", "-f",
		"{{with .Module}}{{if not .Main}}{{.Path}} {{.Dir}}{{end}}{{end}}", "./cmd/oxturn")
	cmd.Env = s.environment()
	listed, err := cmd.Output()
	if err != nil {
		return nil, err
	}
	out := map[string]string{}
	for _, line := range strings.Split(string(listed), "\n") {
		if path, dir, ok := strings.Cut(line, " "); ok {
			out[path] = dir
		}
	}
	return out, nil
}

// legalTexts are those of one work, one after the other.
func legalTexts(dir string) ([]byte, error) {
	entries, err := os.ReadDir(dir)
	if err != nil {
		return nil, err
	}
	var out []byte
	for _, e := range entries {
		if e.IsDir() || !legalText().MatchString(e.Name()) {
			continue
		}
		data, err := os.ReadFile(filepath.Join(dir, e.Name()))
		if err != nil {
			return nil, err
		}
		out = append(out, "---- "+e.Name()+"\n\n"+strings.TrimSpace(string(data))+"\n\n"...)
	}
	if out == nil {
		return nil, fmt.Errorf("it says nowhere under what terms it is given")
	}
	return out, nil
}

// joinedLicences puts them in one text, each under its work's name.
func joinedLicences(of map[string][]byte) []byte {
	var out []byte
	for _, work := range slices.Sorted(maps.Keys(of)) {
		out = append(out, "======== "+work+"\n\n"...)
		out = append(out, of[work]...)
	}
	return out
}
