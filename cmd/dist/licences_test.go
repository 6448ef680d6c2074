package main

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"

	"oxturn/drawing/web/page"
)

// What NOTICE says is linked has its terms among those that are given away, and each text is one.
func TestLicencesOfAllParts(t *testing.T) {
	t.Chdir("../..")
	all, err := licences(systems)
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range []string{"go", "github.com/ajstarks/svgo", "github.com/signintech/gopdf",
		"github.com/pdfcpu/pdfcpu", "github.com/boombuler/barcode", "github.com/BurntSushi/toml",
		"github.com/peterstace/simplefeatures", "golang.org/x/image", "golang.org/x/text", "github.com/pkg/errors"} {
		if all[part] == nil {
			t.Errorf("%s is named in NOTICE, and its terms are not given", part)
		}
	}
	notice, err := os.ReadFile("NOTICE")
	if err != nil {
		t.Fatal(err)
	}
	terms := regexp.MustCompile(`(?i)copyright|licen[cs]e`)
	for part, text := range all {
		if len(text) < 300 || !terms.Match(text) {
			t.Errorf("%s: no terms of use: %s", part, text)
		}
		if part == "the page's editor" {
			continue // TestLicencesOfTheEditor
		}
		name := part[strings.LastIndexByte(part, '/')+1:]
		if name == "v3" {
			name = "yaml"
		}
		if !strings.Contains(strings.ToLower(string(notice)), strings.ToLower(name)) {
			t.Errorf("%s is linked, and NOTICE does not name it", part)
		}
	}
	if joined := string(joinedLicences(all)); strings.Count(joined, "======== ") != len(all) ||
		!strings.HasPrefix(joined, "======== github.com/") {
		t.Error("not each part stands in the joined text")
	}
}

// Each npm package that the editor's lock file has in it, but for the tools that build it, has
// its terms among the editor's, at the version locked, and stands in NOTICE.
func TestLicencesOfTheEditor(t *testing.T) {
	data, err := os.ReadFile("../../drawing/web/page/editor/package-lock.json")
	if err != nil {
		t.Fatal(err)
	}
	var lock struct {
		Packages map[string]struct {
			Version string
			Dev     bool
			License string
		}
	}
	if err := json.Unmarshal(data, &lock); err != nil {
		t.Fatal(err)
	}
	notice, err := os.ReadFile("../../NOTICE")
	if err != nil {
		t.Fatal(err)
	}
	n := 0
	for at, p := range lock.Packages {
		name, isPackage := strings.CutPrefix(at, "node_modules/")
		if !isPackage || p.Dev {
			continue
		}
		n++
		_, terms, given := strings.Cut(string(page.EditorLicences), "==== "+name+" "+p.Version+"\n\n")
		terms, _, _ = strings.Cut(terms, "==== ")
		if !given || p.License != "MIT" || !strings.Contains(terms, "Permission is hereby granted, free of charge") {
			t.Errorf("%s %s, %s licence: its terms are not given", name, p.Version, p.License)
		}
		family, _, _ := strings.Cut(strings.TrimPrefix(name, "@"), "/")
		if family == "marijn" {
			family = "find-cluster-break"
		}
		if !strings.Contains(strings.ToLower(string(notice)), family) {
			t.Errorf("%s is bundled, and NOTICE does not name it", name)
		}
	}
	if terms := strings.Count(string(page.EditorLicences), "==== "); n != terms || n < 8 {
		t.Errorf("%d packages are locked, the terms of %d are given", n, terms)
	}
}
