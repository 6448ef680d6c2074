package main

import (
	"bytes"
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// Every format that files were ever written in is kept in testdata/formats, a folder
// each: a job with what it names, its layout file and its PDF. All of them open.
func TestEarlierFormatsOpen(t *testing.T) {
	formats, err := filepath.Glob("../../testdata/formats/*")
	if err != nil || len(formats) == 0 {
		t.Fatalf("no formats are kept: %v", err)
	}
	for _, dir := range formats {
		job, doc := filepath.Join(dir, "nook.toml"), filepath.Join(dir, "nook.pdf")
		for _, args := range [][]string{
			{"check", job, "--format", "none"},
			{"draw", job, "-o", t.TempDir()},
			{"probe", job, "--at", "600,500", "--plan", filepath.Join(dir, "nook.layout.json")},
			{"probe", doc, "--at", "600,500"},
			{"draw", doc, "-o", t.TempDir()},
		} {
			if _, errs, code := call(t, args...); code != exitOK || strings.Contains(errs, "otherwise now") {
				t.Errorf("%v: exit code %d\n%s", args, code, errs)
			}
		}
		to := t.TempDir()
		if _, errs, code := call(t, "open", doc, "-o", to); code != exitOK {
			t.Fatalf("%s: exit code %d\n%s", doc, code, errs)
		}
		for _, name := range []string{"nook.toml", "cables.toml", "prices.csv", "nook.layout.json"} {
			got, err := os.ReadFile(filepath.Join(to, name))
			want, _ := os.ReadFile(filepath.Join(dir, name))
			if name == "nook.layout.json" { // the PDF has the one as laid
				want = got
			}
			if err != nil || !bytes.Equal(got, want) {
				t.Errorf("%s comes out of %s otherwise, %v", name, doc, err)
			}
		}
	}
}

// What a later version writes is refused with what to do, not misread.
func TestLaterFormatsAreRefused(t *testing.T) {
	dir := t.TempDir()
	put := func(name, text string) string {
		t.Helper()
		name = filepath.Join(dir, name)
		if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		return name
	}
	job := put("job.toml", "format = 2\nunits = \"mm\"\nrooms = 3\n")
	_, errs, code := call(t, "check", job)
	if code != exitJob || strings.Count(errs, "error: ") != 1 ||
		!strings.Contains(errs, "job.toml:1:10: error: this job file is of format 2, and this version reads format 1") {
		t.Errorf("exit code %d\n%s", code, errs)
	}
	plan := put("job.layout.json", `{"schema": 2, "rooms": []}`)
	_, errs, code = call(t, "probe", put("tiny.toml", tinyJob), "--at", "600,500", "--plan", plan)
	if code != exitJob || !strings.Contains(errs, "this layout file is of schema 2, and this version reads schema 1") {
		t.Errorf("exit code %d\n%s", code, errs)
	}
}

// A job that this version would plan otherwise than it is drawn in its PDF is laid by
// the PDF, and that is said: the drawing in the hand is the one that was built from.
func TestAPDFIsLaidAsItIsDrawn(t *testing.T) {
	made := func(text string) *work {
		t.Helper()
		s := source{name: "nook.toml", base: "nook", file: "nook.toml", data: []byte(text)}
		s.keepOpened(opener(s.name))
		w, err := do(context.Background(), s, workOptions{timeLimit: time.Minute})
		if err != nil || w.plan == nil {
			t.Fatal(err, w.report.Diagnostics())
		}
		return w
	}
	was, now := made(tinyJob), made(tinyJob+"\n[clearance]\nwall = 100\n")
	if was.plan.Code == now.plan.Code {
		t.Fatal("both have one plan")
	}
	mixed := *now
	mixed.plan = was.plan
	var b bytes.Buffer
	if err := mixed.writePDF(&b, was.sheets); err != nil {
		t.Fatal(err)
	}
	name := filepath.Join(t.TempDir(), "nook.pdf")
	if err := os.WriteFile(name, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"probe", name, "--at", "600,500"}, {"fault", name, "--short", "60"},
		{"draw", name, "-o", t.TempDir()}} {
		out, errs, code := call(t, args...)
		said := "nook.toml would be planned otherwise now (plan " + now.plan.Code + ")"
		if code != exitOK || !strings.Contains(errs, said) {
			t.Errorf("%v: exit code %d\n%s%s", args, code, out, errs)
		}
		if args[0] == "draw" && !strings.Contains(errs, "plan     "+was.plan.Code) {
			t.Errorf("it is drawn by another plan:\n%s", errs)
		}
	}
}
