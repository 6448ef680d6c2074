package main

import (
	"encoding/json"
	"os"
	"regexp"
	"strings"
	"testing"

	"oxturn/drawing/web/page"
	"oxturn/drawing/web/viewer"
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
		if strings.HasPrefix(part, "the page's ") {
			continue // TestLicencesOfTheBundles
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

// Each npm package that a bundle's lock file has in it, but for the tools that build it, has its
// terms among the bundle's, at the version locked, and stands in NOTICE.
func TestLicencesOfTheBundles(t *testing.T) {
	notice, err := os.ReadFile("../../NOTICE")
	if err != nil {
		t.Fatal(err)
	}
	// of each licence a line, by https://spdx.org/licenses
	lines := map[string]string{"MIT": "Permission is hereby granted, free of charge",
		"ISC":          "Permission to use, copy, modify, and/or distribute this software",
		"BSD-3-Clause": "Neither the name of"}
	for folder, given := range map[string]string{"page/editor": string(page.EditorLicences),
		"viewer/zoom": string(viewer.Licences)} {
		n := 0
		for name, p := range locked(t, folder) {
			n++
			_, terms, found := strings.Cut(given, "==== "+name+" "+p.Version+"\n\n")
			terms, _, _ = strings.Cut(terms, "==== ")
			if line := lines[p.License]; !found || line == "" || !strings.Contains(terms, line) {
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
		if terms := strings.Count(given, "==== "); n != terms || n < 8 {
			t.Errorf("%s: %d packages are locked, the terms of %d are given", folder, n, terms)
		}
	}
}

// A lockedPackage is what a lock file says of one.
type lockedPackage struct {
	Version string
	Dev     bool
	License string
}

// locked are the packages that a lock file has for the bundle.
func locked(t *testing.T, folder string) map[string]lockedPackage {
	t.Helper()
	data, err := os.ReadFile("../../drawing/web/" + folder + "/package-lock.json")
	if err != nil {
		t.Fatal(err)
	}
	var lock struct{ Packages map[string]lockedPackage }
	if err := json.Unmarshal(data, &lock); err != nil {
		t.Fatal(err)
	}
	out := map[string]lockedPackage{}
	for at, p := range lock.Packages {
		if name, isPackage := strings.CutPrefix(at, "node_modules/"); isPackage && !p.Dev {
			out[name] = p
		}
	}
	return out
}
