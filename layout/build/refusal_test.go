package build_test

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
)

// A box over what stands on the floor, or by the screws of a threshold, has no
// way for its lead. What the hint says is free, is: the same job with the box
// there is laid.
func TestWhereTheBoxCouldHang(t *testing.T) {
	vanity := "[[room.fixture]]\nkind = \"vanity\"\nwall = \"A\"\nfrom = 500\nwidth = 800\ndepth = 500\n"
	door := "[[room.opening]]\nwall = \"A\"\nfrom = 900\nwidth = 600\nthreshold = true\n"
	for _, c := range []struct {
		stands string
		box    int
		said   string
		free   [][2]float64 // by hand: the wall less what stands and the fixing's 100 mm
	}{
		{vanity, 700, "where vanity stands", [][2]float64{{0, 500}, {1300, 1600}}},
		{door, 830, "on floor kept free for fixing door threshold", [][2]float64{{0, 800}}},
	} {
		text := strings.Replace(trial.Hand, "[room.thermostat]\n", c.stands+"[room.thermostat]\n", 1)
		text = strings.Replace(text, `length = "26 m"`, `length = "16 m"`, 1)
		hang := func(at int) []job.Diagnostic {
			_, found := build.Plan(trial.Read(t, "box.toml",
				[]byte(strings.Replace(text, "at = [800, 0]", fmt.Sprintf("at = [%d, 0]", at), 1))))
			return trial.OnlyErrors(found)
		}
		found := hang(c.box)
		if len(found) != 1 || !strings.Contains(found[0].Message, c.said) {
			t.Errorf("box at %d: got %v, want %q", c.box, found, c.said)
			continue
		}
		free := regexp.MustCompile(`(\d+) mm to (\d+) mm`).FindAllStringSubmatch(found[0].Hint, -1)
		if len(free) != len(c.free) {
			t.Errorf("hint %q, want %v", found[0].Hint, c.free)
			continue
		}
		for i, f := range free {
			from, _ := strconv.Atoi(f[1])
			to, _ := strconv.Atoi(f[2])
			if float64(from) < c.free[i][0] || float64(from) > c.free[i][0]+15 || float64(to) > c.free[i][1] ||
				float64(to) < c.free[i][1]-15 {
				t.Errorf("hint %q, want %v", found[0].Hint, c.free)
			}
			if left := hang((from + to) / 2); len(left) > 0 {
				t.Errorf("box at %d, which is said to be free: %v", (from+to)/2, left)
			}
		}
	}
}

// A movement joint halves a floor of 4 x 3 m; the box hangs in the middle of the
// east wall. The way along the border to the other half is about 1.5 m to the
// corner and 2 m to the joint, 3.5 m, less the few hands' breadths that the
// border is wide; 4 m of lead less 1.2 m to the box and 0.3 m in it leave 2.5 m.
func TestHowMuchLeadIsWanting(t *testing.T) {
	text := strings.Replace(trial.Hand, "[[0,0],[1600,0],[1600,2400],[0,2400]]",
		"[[0,0],[4000,0],[4000,3000],[0,3000]]", 1)
	text = text[:strings.Index(text, "[[room.fixture]]")] +
		"[[room.joint]]\nfrom = [2000, 0]\nto = [2000, 3000]\n[room.thermostat]\nat = [4000, 1500]\nheight = 1200\n"
	text = strings.NewReplacer(`["C"]`, `["C", "C"]`, `"26 m"`, `"60 m"`).Replace(text)
	_, found := build.Plan(trial.Read(t, "lead.toml", []byte(text)))
	var left, asked float64
	for _, d := range trial.OnlyErrors(found) {
		if i := strings.Index(d.Message, "too short: "); i >= 0 {
			fmt.Sscanf(d.Message[i:], "too short: %f m of it are left for the floor, and the nearest place where "+
				"heat may start asks for %f m", &left, &asked)
		}
	}
	if left != 2.5 || asked < 3.1 || asked > 3.6 {
		t.Errorf("%.1f m left, %.1f m asked for: %v", left, asked, found)
	}
}
