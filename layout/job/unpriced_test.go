package job

import (
	"os"
	"regexp"
	"strings"
	"testing"
)

// A job that has every key there is comes out without a word of money, and reads as
// it did but for that.
func TestUnpricedReadsAsBefore(t *testing.T) {
	data, err := os.ReadFile("testdata/good/every-key.toml")
	if err != nil {
		t.Fatal(err)
	}
	if !strings.Contains(string(data), "price") || !strings.Contains(string(data), "hour_cost") {
		t.Fatal("the job has no prices to begin with")
	}
	out, err := Unpriced(data)
	if err != nil {
		t.Fatal(err)
	}
	if m := regexp.MustCompile(`(?m)price.*|hour_cost.*|^\s*#.*`).FindAllString(string(out), -1); m != nil {
		t.Errorf("it still says %q", m)
	}
	open := func(name string) ([]byte, error) { return os.ReadFile("testdata/good/" + name) }
	was, _ := Read("job.toml", data, open)
	now, report := Read("job.toml", out, open)
	if report.Errors() > 0 {
		t.Fatalf("%d errors, the first: %v", report.Errors(), report.Diagnostics()[0])
	}
	if len(now.Prices) != 0 || len(now.Labour) != len(was.Labour) || len(now.Cables) != len(was.Cables) ||
		len(now.Rooms) != len(was.Rooms) || now.Energy.Tariff != was.Energy.Tariff {
		t.Error("more than money is gone")
	}
	for _, c := range now.Cables {
		if c.Price != 0 {
			t.Errorf("cable %s costs %g", c.ID, c.Price)
		}
	}
}
