package layout_test

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"oxturn/layout"
	"oxturn/layout/build"
	"oxturn/layout/internal/trial"
	"oxturn/layout/job"
	"oxturn/layout/language"
	"oxturn/layout/plane"
)

var update = flag.Bool("update", false, "take the figures of the kept plans as they are now for good")

// keptPlans are the plans whose figures are kept: the trial.Examples, and a job worked
// out by hand in other tests.
func keptPlans(t testing.TB) map[string]*layout.Plan {
	hand, _ := build.Plan(trial.Read(t, "hand.toml", []byte(trial.Hand)))
	out := map[string]*layout.Plan{"hand": hand}
	for _, name := range trial.Examples {
		out[strings.TrimSuffix(name, ".toml")] = trial.Example(t, name)
	}
	return out
}

// figuresText writes what was worked out for a plan, a line a thing, figures to
// six places: what machines differ in lies far behind them.
func figuresText(p *layout.Plan) string {
	var b strings.Builder
	say := func(what string, v ...any) {
		fmt.Fprintf(&b, "%s:", what)
		for _, x := range v {
			fmt.Fprintf(&b, " %+v", x)
		}
		b.WriteString("\n")
	}
	for i := range p.Rooms {
		r := &p.Rooms[i]
		without, err := r.WithoutCable()
		say("room "+r.Job.Name, r.Floor.Area(), r.Tiled.Area(), r.Heated.Area(), r.Bare.Area(), without.Area(), err,
			r.Warmed())
		for _, n := range r.NoCut {
			say("no cut", n.Reason, n.Name, n.Region.Area(), n.Region.Bounds())
		}
		for _, c := range r.Cables {
			say("cable "+c.ID, c.Label.ID, c.Zone, c.Path[0], c.Path[len(c.Path)-1], c.Routed, c.Spacing, c.Density,
				c.Share.Area(), c.LeadReach, plane.PathLength(c.ColdLead), plane.PathLength(c.Return), c.Score)
			say("gaps", c.Gaps)
			say("circuit", c.Circuit)
			for _, run := range c.Runs {
				say("run", run)
			}
			say("marks", c.Marks)
		}
		for _, s := range r.Sensors {
			say("sensor", s.Name, s.Spare, s.Tip, s.Lead, s.Why)
		}
		say("joints crossed", r.JointCrossings())
		if c := r.Chosen; c != nil {
			say("chosen", c.Taken, c.Why)
			for _, k := range c.RunnersUp {
				say("or", k)
			}
		}
	}
	for _, l := range p.Load {
		say("load", l.Room, l.Volts, l.Watts, l.Amps, l.Continuous, l.Contacts)
	}
	for _, l := range p.Losses {
		say("loss", l.Words((&job.Job{Units: plane.Millimetres}).Figures()))
	}
	if w := p.Warmth; w != nil {
		say("warmth", w.Depth, w.Room, w.Warmest, w.Holds, w.Rise, w.Hours, w.Problem)
		for _, k := range w.Runs {
			say("warm", k.Cables, k.Hot.Steady, k.Cold.Steady)
		}
		for _, o := range w.Offers {
			say("offer", o)
		}
		for _, u := range w.Use {
			say("use", u)
		}
		for _, s := range w.Assumptions(plane.Millimetres) {
			say("taken", s)
		}
	}
	if p.FullUse != nil {
		say("full use", p.FullUse.Words(language.English))
	}
	return inSixPlaces(b.String())
}

var (
	fraction = regexp.MustCompile(`-?\d+\.\d+(e[+-]\d+)?`)
	address  = regexp.MustCompile(`0x[0-9a-f]+`)
)

// sumOf is how many figures there are, their sum, and that of each times its place, so that
// no two may change places.
func sumOf(figures []string) string {
	sum, placed := 0.0, 0.0
	for i, f := range figures {
		v, _ := strconv.ParseFloat(f, 64)
		sum += v
		placed += v * float64(i+1)
	}
	return fmt.Sprintf("%d figures, sum %.6g, %.6g by place", len(figures), sum, placed)
}

func inSixPlaces(s string) string {
	s = fraction.ReplaceAllStringFunc(s, func(f string) string {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil {
			return f
		}
		return strconv.FormatFloat(v, 'g', 6, 64)
	})
	lines := strings.Split(address.ReplaceAllString(s, "there"), "\n")
	for i, l := range lines {
		if len(l) > 300 { // a whole profile, whose figures near zero are no machine's like another's
			lines[i] = fmt.Sprintf("%s... %s", l[:150], sumOf(fraction.FindAllString(l, -1)))
		}
	}
	return strings.Join(lines, "\n")
}

// TestKeptFigures holds every figure of some plans against those that were looked
// at and taken, so that none changes by accident. Where a change means it:
//
//	go test ./layout -run TestKeptFigures -update
func TestKeptFigures(t *testing.T) {
	for name, p := range keptPlans(t) {
		file, got := filepath.Join("testdata", "figures", name+".txt"), figuresText(p)
		if *update {
			if err := os.WriteFile(file, []byte(got), 0o644); err != nil {
				t.Fatal(err)
			}
		}
		want, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if d := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(got, "\n")); d != "" {
			t.Errorf("%s: where this is meant, run: go test ./layout -run TestKeptFigures -update\n%s", name, d)
		}
	}
}
