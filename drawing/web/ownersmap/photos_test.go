package ownersmap

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/job"
)

// photographed is the map of the example with photos.
func photographed(t *testing.T) string {
	t.Helper()
	const dir = "../../../testdata/photos"
	open := func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(dir, name)) }
	data, err := open("hall.toml")
	if err != nil {
		t.Fatal(err)
	}
	j, report := job.Read("hall.toml", data, open)
	if report.Errors() > 0 {
		t.Fatal(report.Diagnostics())
	}
	p, _ := build.Plan(j)
	return write(t, p)
}

// TestPhotosUnderTheMap: each photo can be laid under the lines, one at a time, and none is at
// first. With two the page stays under a megabyte.
func TestPhotosUnderTheMap(t *testing.T) {
	page := photographed(t)
	if n := strings.Count(page, `<image class="photo"`); n != 2 || len(page) > 1_000_000 {
		t.Fatalf("%d photos, %d bytes", n, len(page))
	}
	ctx := browser(t, page)
	// how many are seen, how wide the first of them is on the screen, whether the dots are seen
	const seen = `(() => {
		const shown = [...document.querySelectorAll(".photo")].filter((el) => getComputedStyle(el).display !== "none");
		const wide = shown.length ? shown[0].getBoundingClientRect().width : 0;
		const dots = document.querySelector(".bare");
		return [shown.length, wide > 200 ? 1 : 0, dots && getComputedStyle(dots).display !== "none" ? 1 : 0];
	})()`
	for _, c := range []struct {
		value string
		want  [3]int
	}{{"", [3]int{0, 0, 1}}, {"1", [3]int{1, 1, 0}}, {"0", [3]int{1, 1, 0}}, {"", [3]int{0, 0, 1}}} {
		touch(t, ctx, `.photos input[value="`+c.value+`"]`)
		if got := evaluate[[3]int](t, ctx, seen); got != c.want {
			t.Errorf("photo %q chosen: %v, want %v", c.value, got, c.want)
		}
	}
}
