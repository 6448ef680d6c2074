package page

import (
	"crypto/sha256"
	"encoding/base64"
	"encoding/json"
	"regexp"
	"strings"
	"testing"
)

var small = Engine{Packed: []byte{0x1f, 0x8b, 8, 0}, Support: []byte("class Go {}\n")}

// What the policy lets run is what stands in the page: a browser refuses all else
// (Content Security Policy level 3, hash sources).
func TestPolicyNamesWhatIsThere(t *testing.T) {
	data, err := small.OneFile()
	if err != nil {
		t.Fatal(err)
	}
	text := string(data)
	policy := regexp.MustCompile(`Content-Security-Policy" content="([^"]*)"`).FindStringSubmatch(text)[1]
	for kind, pattern := range map[string]string{"script-src": `(?s)<script>(.*?)</script>`,
		"style-src": `(?s)<style>(.*?)</style>`} {
		found := regexp.MustCompile(pattern).FindAllStringSubmatch(text, -1)
		if len(found) != 1 {
			t.Fatalf("%d of %s", len(found), kind)
		}
		sum := sha256.Sum256([]byte(found[0][1]))
		if want := kind + " 'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"; !strings.Contains(policy,
			want) {
			t.Errorf("policy %q lacks %q", policy, want)
		}
	}
	for _, bad := range []string{"unsafe-inline", "'unsafe-eval'", "http:", "https:"} {
		if strings.Contains(policy, bad) {
			t.Errorf("policy %q has %s", policy, bad)
		}
	}
}

// Nothing is named that lies elsewhere, but for names of XML.
func TestPageNamesNoOtherPlace(t *testing.T) {
	one, err := small.OneFile()
	if err != nil {
		t.Fatal(err)
	}
	files, err := small.Folder()
	if err != nil {
		t.Fatal(err)
	}
	files["one file"] = one
	elsewhere := regexp.MustCompile(`(?i)\b(https?:)?//[a-z0-9][a-z0-9.-]*\.[a-z]{2,}[^\s"'<>]*`)
	for name, data := range files {
		for _, place := range elsewhere.FindAllString(string(data), -1) {
			if !strings.HasPrefix(place, "http://www.w3.org/") {
				t.Errorf("%s names %s", name, place)
			}
		}
	}
}

func TestFolderIsKeptWhole(t *testing.T) {
	files, err := small.Folder()
	if err != nil {
		t.Fatal(err)
	}
	list := regexp.MustCompile(`parts = (\[.*?\]);`).FindStringSubmatch(string(files["offline.js"]))
	var parts []string
	if list == nil || json.Unmarshal([]byte(list[1]), &parts) != nil {
		t.Fatal("the list of parts cannot be read")
	}
	kept := map[string]bool{}
	for _, p := range parts {
		kept[p] = true
	}
	for name := range files {
		if name != "offline.js" && !kept[name] {
			t.Errorf("%s is not kept for use without a network", name)
		}
	}
	other := small
	other.Packed = append([]byte{}, 1, 2, 3)
	again, err := other.Folder()
	if err != nil || string(again["offline.js"]) == string(files["offline.js"]) {
		t.Errorf("another engine has the same version: %v", err)
	}
}

func TestScriptsThatEndThemselvesAreRefused(t *testing.T) {
	bad := small
	bad.Support = []byte("const x = '</SCRIPT>'")
	if _, err := bad.OneFile(); err == nil {
		t.Error("no error")
	}
}
