package main

import (
	"os"
	"regexp"
	"strings"
	"testing"
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
