package main

import (
	_ "embed"
	"encoding/json"
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"
)

// ownFile is the mode of files that only this run reads.
const ownFile = 0o600

//go:embed switch.go.txt
var buildSwitches string

// binary is the test binary of one package with all its mutants.
type binary struct {
	pkg     *pkg
	mutants int
	dir     string // temporary
	path    string
	flags   []string
	tests   []test
	grace   time.Duration // that tests may take longer with a mutant
	reach   map[int][]int // mutant to tests, quickest first
}

// build compiles a package's tests over the rewritten files; the package's own stay as they are.
func build(p *pkg, files map[string][]byte, mutants int) (*binary, error) {
	dir, err := os.MkdirTemp("", "mutants")
	if err != nil {
		return nil, err
	}
	b := &binary{pkg: p, mutants: mutants, dir: dir, path: filepath.Join(dir, "tests")}
	if err := b.compile(files); err != nil {
		return nil, errors.Join(err, os.RemoveAll(dir))
	}
	if slices.Contains(append(p.TestImports, p.XTestImports...), "pgregory.net/rapid") {
		b.flags = []string{"-rapid.seed=1", "-rapid.nofailfile", "-rapid.shrinktime=1ms"}
	}
	return b, nil
}

func (b *binary) compile(files map[string][]byte) error {
	overlay := struct{ Replace map[string]string }{map[string]string{}}
	put := func(path string, text []byte) error {
		to := filepath.Join(b.dir, strconv.Itoa(len(overlay.Replace))+".go")
		overlay.Replace[path] = to
		return os.WriteFile(to, text, ownFile)
	}
	for path, text := range files {
		if err := put(path, text); err != nil {
			return err
		}
	}
	helpers := "package " + b.pkg.Name + "\n\n" + strings.Replace(buildSwitches, "MUTANTS", strconv.Itoa(b.mutants), 1)
	if err := put(filepath.Join(b.pkg.Dir, "mutant_switches.go"), []byte(helpers)); err != nil {
		return err
	}
	list, err := json.Marshal(overlay)
	if err != nil {
		return err
	}
	name := filepath.Join(b.dir, "overlay.json")
	if err := os.WriteFile(name, list, ownFile); err != nil {
		return err
	}
	_, err = goCommand("test", "-c", "-vet=off", "-overlay", name, "-o", b.path, b.pkg.ImportPath)
	return err
}

func (b *binary) remove() { os.RemoveAll(b.dir) }

// names returns the package's tests, examples and fuzz targets, whose kept inputs run as tests.
func (b *binary) names() ([]string, error) {
	out, err := b.command("", "-test.list", ".").Output()
	if err != nil {
		return nil, err
	}
	var names []string
	for _, n := range strings.Fields(string(out)) {
		if !strings.HasPrefix(n, "Benchmark") {
			names = append(names, n)
		}
	}
	return names, nil
}
