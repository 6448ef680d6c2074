package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"go/ast"
	"go/importer"
	"go/parser"
	"go/token"
	"go/types"
	"io"
	"os"
	"os/exec"
	"path/filepath"
)

// pkg is one package with its types.
type pkg struct {
	Dir, ImportPath, Name, Export string
	GoFiles, TestImports          []string
	XTestImports                  []string
	DepOnly                       bool

	root  string // folder that printed paths begin at
	fset  *token.FileSet
	files []*source
	types *types.Package
	info  *types.Info
}

// source is one file as it is written.
type source struct {
	path string // in full
	text []byte
	tree *ast.File
}

// load asks the go command for the packages and for what they import, compiled.
func load(patterns []string) ([]*pkg, error) {
	out, err := goCommand(append([]string{"list", "-deps", "-export",
		"-json=Dir,ImportPath,Name,Export,GoFiles,TestImports,XTestImports,DepOnly"},
		patterns...)...)
	if err != nil {
		return nil, err
	}
	exports := map[string]string{}
	var named []*pkg
	for d := json.NewDecoder(bytes.NewReader(out)); ; {
		p := &pkg{}
		if err := d.Decode(p); errors.Is(err, io.EOF) {
			break
		} else if err != nil {
			return nil, err
		}
		exports[p.ImportPath] = p.Export
		if !p.DepOnly {
			named = append(named, p)
		}
	}
	for _, p := range named {
		if err := p.check(exports); err != nil {
			return nil, err
		}
	}
	return named, nil
}

func goCommand(args ...string) ([]byte, error) {
	cmd := exec.Command("go", args...)
	var errs bytes.Buffer
	cmd.Stderr = &errs
	out, err := cmd.Output()
	if err != nil {
		return nil, fmt.Errorf("go %s: %w\n%s", args[0], err, errs.Bytes())
	}
	return out, nil
}

// check parses the package's files and finds the type of every expression.
func (p *pkg) check(exports map[string]string) error {
	p.fset = token.NewFileSet()
	var err error
	if p.root, err = os.Getwd(); err != nil {
		return err
	}
	var trees []*ast.File
	for _, name := range p.GoFiles {
		s := &source{path: filepath.Join(p.Dir, name)}
		if s.text, err = os.ReadFile(s.path); err != nil {
			return err
		}
		if s.tree, err = parser.ParseFile(p.fset, s.path, s.text, parser.SkipObjectResolution); err != nil {
			return err
		}
		p.files = append(p.files, s)
		trees = append(trees, s.tree)
	}
	compiled := func(path string) (io.ReadCloser, error) { return os.Open(exports[path]) }
	conf := types.Config{Importer: importer.ForCompiler(p.fset, "gc", compiled)}
	p.info = &types.Info{Types: map[ast.Expr]types.TypeAndValue{}}
	p.types, err = conf.Check(p.ImportPath, p.fset, trees, p.info)
	return err
}
