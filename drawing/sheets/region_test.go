package sheets

import (
	"regexp"
	"strings"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
	"oxturn/layout"
	"oxturn/layout/circuit"
)

// setInRegion draws an example in a region: in its own, with the circuits that its job
// gives, it is drawn already.
func setInRegion(t *testing.T, name string, in circuit.Region) []*drawing.Sheet {
	t.Helper()
	if d := example(t, name); d.plan.Job.Supply.Region == in.Name {
		return d.set
	}
	set, err := Set(inRegion(t, name, in.Name))
	if err != nil {
		t.Fatal(err)
	}
	return set
}

// inRegion builds an example's plan as if its job named another region and
// gave nothing of its circuits.
func inRegion(t *testing.T, name, region string) *layout.Plan {
	t.Helper()
	j, err := readJob(exampleFile(name))
	if err != nil {
		t.Fatal(err)
	}
	j.Supply.Region, j.Circuits = region, nil
	for i := range j.Rooms {
		j.Rooms[i].Thermostat.Circuit = ""
	}
	p, err := planned(j)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

// others are words and figures of the other region's rules, as its standards
// have them: NEC 2023, 240.6(A), 210.20(A), UL 943 against IEC 60898-1,
// IEC 60364-7-753.
var others = map[string]*regexp.Regexp{
	"north america": regexp.MustCompile(
		`distribution board|RCD|residual|IEC 60364|IEC 60898|\b30 mA\b|\b(6|10|13|16|32) A (circuit-)?breaker`),
	"europe": regexp.MustCompile(`(?i)(^|[^-])\bbreaker|\bpanel|GFCI|ground-fault|\bNEC\b|UL 943|\b80 % ` +
		`is|\b125 %|\b(15|30|35|45|60) A (circuit-)?breaker|5 mA`),
	"elsewhere": regexp.MustCompile(`(?i)\bpanel|GFCI|RCD|ground-fault|residual|\bNEC\b|UL 943|IEC 60364|IEC ` +
		`60898|\b80 % is|\b125 %|\d A (circuit-)?breaker|\bmA (or|to)\b`),
}

func TestNoSheetPrintsAnotherRegionsRules(t *testing.T) {
	for _, name := range []string{"bath", "kitchen"} {
		for _, in := range circuit.All {
			all := ""
			set := setInRegion(t, name, in)
			for _, s := range set {
				all += " " + plainText(said(s))
			}
			if got := others[in.Name].FindAllString(all, -1); len(got) > 0 {
				t.Errorf("%s in %s prints %q", name, in.Name, got)
			}
			if !strings.Contains(all, in.Protect) || !strings.Contains(all, in.Series) {
				t.Errorf("%s in %s does not say how people are protected, by one device", name, in.Name)
			}
		}
	}
}

// A drawing is read by people without the program: it has neither its command
// lines nor how a value came to be known.
func TestNoSheetPrintsCommandsOrMemory(t *testing.T) {
	for _, name := range []string{"bath", "kitchen"} {
		for _, s := range example(t, name).set {
			text := plainText(said(s))
			if bad := regexp.MustCompile(`from memory|oxturn [a-z]+ |\s--[a-z]`).FindString(text); bad != "" {
				t.Errorf("%s prints %q", s.ID, bad)
			}
		}
	}
}

func plainText(s string) string {
	return strings.Join(strings.Fields(strings.ReplaceAll(s, setting.NoBreak, " ")), " ")
}
