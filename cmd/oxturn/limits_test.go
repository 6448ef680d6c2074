package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"oxturn/layout/job"
)

// sized is the tiny job with a room of so many mm and a pitch.
func sized(w, h, pitch string) string {
	text := strings.Replace(tinyJob, "[[0, 0], [1200, 0], [1200, 1000], [0, 1000]]", "[[0, 0], ["+w+", 0], ["+w+", "+h+
		"], [0, "+h+"]]", 1)
	return strings.Replace(text, "pitch = 30", "pitch = "+pitch, 1)
}

// TestLimits gives the command what is no job at all: each is refused in a
// moment, with words a person can use.
func TestLimits(t *testing.T) {
	for what, c := range map[string]struct{ text, says string }{
		"a room of 1 km":     {sized("1000000", "1000000", "30"), "1000 m by 1000 m"},
		"a corridor":         {sized("1000000", "1000", "30"), "1000000 mm across; 100000 mm is the most"},
		"a hall":             {sized("30000", "30000", "30"), "1000000 pegs; 250000 are the most"},
		"a pitch of 0.01 mm": {sized("1200", "1000", "0.01"), "pegs stand 20 to 120 mm apart"},
		"a million corners": {strings.Replace(tinyJob, "[0, 1000]]", strings.Repeat("[0,0],", 170000)+"]", 1),
			"more than 100000 items"},
		"a file of 10 MB": {tinyJob + "#" + strings.Repeat("x", 10<<20), "a job file has 1048576 at most"},
		"a file of 20 MB": {tinyJob + "#" + strings.Repeat("x", 20<<20), "larger than 16 MiB"},
		"nested arrays":   {"a = " + strings.Repeat("[", 500000), "nested too deep"},
		"nested keys":     {strings.Repeat("a.", 250000) + "b = 1", "nested too deep"},
		"a thousand revisions": {tinyJob + strings.Repeat("[[revision]]\n", 1000),
			"1000 tables [[revision]]; 500 are taken at most"},
		"a name without end": {strings.Replace(tinyJob, "Nook", strings.Repeat("N", 5000), 1),
			"5000 bytes; 1000 are the most"},
		"a name like a note": {strings.Replace(tinyJob, "Nook", strings.Repeat("ü", 101), 1),
			"name has 101 letters; 100 are the most"},
		"not UTF-8":          {strings.Replace(tinyJob, "Nook", "N\xff", 1), "is not UTF-8 text"},
		"no number":          {strings.Replace(tinyJob, "pitch = 30", "pitch = nan", 1), "nan, which is no figure"},
		"a catalogue of air": {"catalogue = \"none.toml\"\n" + tinyJob, "there is no such file"},
		"a device":           {"catalogue = \"/dev/zero\"\n" + tinyJob, "it is not a plain file"},
		"a folder":           {"catalogue = \".\"\n" + tinyJob, "it is not a plain file"},
	} {
		name := jobFile(t, c.text)
		start := spent()
		out, said, code := call(t, "check", name)
		if code == exitOK || out != "" || !strings.Contains(said, c.says) {
			t.Errorf("%s: exit code %d, %q is not in %.600s", what, code, c.says, said)
		}
		if d := spent() - start; d > time.Second*slowness {
			t.Errorf("%s: it took %v", what, d)
		}
	}
}

// TestLongWords draws texts of a single word as long as may be: none takes
// longer to set than the rest of the drawing.
func TestLongWords(t *testing.T) {
	word := `"` + strings.Repeat("Wi", 500) + `"`
	text := "notes = [" + word + ", " + word + "]\n" + tinyJob
	text += "\n[[revision]]\ntext = " + word + "\n\n[job]\n"
	for _, k := range job.Keys() {
		if k.Parent() == "job" && k.Type == job.TypeText {
			text += k.Name() + " = \"" + word[1:101] + "\"\n"
		}
	}
	start := spent()
	_, said, code := call(t, "draw", jobFile(t, text), "-o", t.TempDir())
	if code != exitOK {
		t.Errorf("exit code %d: %s", code, said)
	}
	if d := spent() - start; d > 5*time.Second*slowness {
		t.Errorf("it took %v", d)
	}
}

// TestFilesFromElsewhere reads what other systems' editors write.
func TestFilesFromElsewhere(t *testing.T) {
	for what, text := range map[string]string{
		"line ends of Windows": strings.ReplaceAll(tinyJob, "\n", "\r\n"),
		"a byte order mark":    "\ufeff" + tinyJob,
		"no last line end":     strings.TrimRight(tinyJob, "\n"),
	} {
		if _, said, code := call(t, "check", jobFile(t, text)); code != exitOK {
			t.Errorf("%s: exit code %d: %s", what, code, said)
		}
	}
}

// TestTimeLimit gives up on a job that takes too long.
func TestTimeLimit(t *testing.T) {
	_, said, code := call(t, "check", jobFile(t, tinyJob), "--time-limit", "1ns")
	if code != exitJob || !strings.Contains(said, "this job was given up after 1ns") || !strings.Contains(said,
		"--time-limit") {
		t.Errorf("exit code %d: %s", code, said)
	}
}

// TestUnwritable says what stands against writing.
func TestUnwritable(t *testing.T) {
	name := jobFile(t, tinyJob)
	for _, dir := range []string{"/proc/oxturn-test", filepath.Join(name, "out")} {
		if _, err := os.Stat(filepath.Dir(dir)); err != nil {
			continue
		}
		_, said, code := call(t, "draw", name, "-o", dir)
		if code != exitUsage || !strings.Contains(said, "nothing was written: cannot write to "+dir) {
			t.Errorf("%s: exit code %d: %s", dir, code, said)
		}
	}
}
