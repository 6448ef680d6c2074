package tree

import (
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// seeds are files with every form that TOML has for a key and a value.
var seeds = []string{
	"",
	"a = 1",
	"units = \"mm\"\n[job]\ntitle = 'x' # y\ndate = 2026-11-24\n",
	"[[room]]\nname=\"a\"\ncorners=[[0,0],\n [1,2] ,# c ]\n " +
		"[3,4],]\n[[room.keep_out]]\nclear=5\n[[room.keep_out]]\nclear=6\n[[room]]\n[room.thermostat]\nat=[1,2]\n",
	"a.b.c = 1\na.b.d = {x = 1, y = {z = [ {q = 1}, {q = 2} ]}}\n[t.u]\nv.w = 07:32:00\n",
	"a = \"\"\"x\n\"y\"\"\"\"\"\nb = '''\nq''''\n\"k \\\" = .\" = \"v # \\\\\"\n'l.m'.\"n\" = true\n",
	"d = 1979-05-27 07:32:00Z # c\ne = [ 1979-05-27 07:32:00 , 2 ]\r\nf = -inf\r\n",
	byteOrderMark + "a = 1\n[b]\nc = 2",
	"a = {\n x = 1,\n # c\n}\n",
	"[ a . 'b' ]\nc=1\n[[ d . e ]]\n[d.f]\n",
	"\"\" = 1\n[x.\"\"]\n",
	"a = []\nb = [[]]\nc = {}\n",
}

// agree checks the scanner against the library: the same keys in the same
// order, and every span inside the text.
func agree(t *testing.T, data string) {
	text, err := readable([]byte(data))
	if err != nil {
		return
	}
	_, md, err := decode(text)
	root, keys := scan(text) // must neither panic nor hang, TOML or not
	if err != nil {
		return
	}
	var want [][]string
	for _, k := range md.Keys() {
		want = append(want, k)
	}
	if d := cmp.Diff(want, keys); d != "" {
		t.Errorf("keys of %q (-library +scanner):\n%s", data, d)
	}
	spansInside(t, root, len(text))
}

func spansInside(t *testing.T, n *Node, size int) {
	for _, r := range []Range{n.Key, n.Span} {
		if r.Start < 0 || r.End < r.Start || r.End > size {
			t.Errorf("%q: range %v outside %d bytes", n.Name, r, size)
		}
	}
	for _, c := range append(n.Fields, n.Items...) {
		spansInside(t, c, size)
	}
}

func TestScanAgreesWithLibrary(t *testing.T) {
	for _, s := range seeds {
		agree(t, s)
	}
}

func FuzzScan(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
	}
	f.Fuzz(agree)
}

func TestSpans(t *testing.T) {
	text := seeds[3]
	root, err := Parse([]byte(text))
	if err != nil {
		t.Fatal(err)
	}
	room := root.Get("room").Items[0]
	checks := []struct {
		r    Range
		want string
	}{
		{room.Span, "[[room]]"},
		{room.Key, "room"},
		{room.Get("name").Key, "name"},
		{room.Get("name").Span, `"a"`},
		{room.Get("corners").Items[1].Span, "[1,2]"},
		{room.Get("corners").Items[2].Items[1].Span, "4"},
		{room.Get("keep_out").Items[1].Get("clear").Span, "6"},
		{room.Get("keep_out").Items[0].Get("clear").Span, "5"},
		{room.Get("keep_out").Items[1].Span, "[[room.keep_out]]"},
		{root.Get("room").Items[1].Get("thermostat").Span, "[room.thermostat]"},
	}
	for _, c := range checks {
		if got := text[c.r.Start:c.r.End]; got != c.want {
			t.Errorf("span %v is %q, want %q", c.r, got, c.want)
		}
	}
	if strings.Count(text[:room.Get("keep_out").Items[1].Span.Start], "keep_out") != 1 {
		t.Error("the second keep_out's header is not the second one's")
	}
	if v := room.Get("keep_out").Items[1].Get("clear").Value; v != int64(6) {
		t.Errorf("value %v, want 6", v)
	}
}

func TestSyntaxErrors(t *testing.T) {
	tests := []struct{ in, message, hint string }{
		{"length = 60 m", "text and lengths with a unit stand in quotes", `write length = "60 m"`},
		{"date = 2026-13-40", "this is no date",
			"a date is a day of the calendar in four, two and two figures: 2026-12-02"},
		{"date = 2/12/2026", "this is no date",
			"a date is a day of the calendar in four, two and two figures: 2026-12-02"},
		{"name = Bath", "text and lengths with a unit stand in quotes", `write name = "Bath"`},
		{"from = “9ft”", "a curly quote, as word processors make of a straight one",
			`write straight quotes, "north 6ft", in an editor for plain text`},
		{"walls = [“east 9ft”]", "a curly quote, as word processors make of a straight one",
			`write straight quotes, "north 6ft", in an editor for plain text`},
		{"from = \"9' 4\"\"", "the inch mark ends the quoted text",
			`write in and ft for the marks, such as "9ft 4in", or put single quotes round text with an inch mark ` +
				`alone: '4"'`},
		{"walls = [\"east 9' 4\"\", \"north 6'\"]", "the inch mark ends the quoted text",
			`write in and ft for the marks, such as "9ft 4in", or put single quotes round text with an inch mark ` +
				`alone: '4"'`},
		{"\xff\xfea\x00", "this file is UTF-16 text, or no text at all", "save it as UTF-8 in the editor"},
		{"a = \"\xe9\"", "byte 0xe9 is not UTF-8 text", "save the file as UTF-8 in the editor"},
		{"a = " + strings.Repeat("[", 5000), "brackets or dotted keys are nested too deep here",
			"look for a bracket that is never closed"},
		{strings.Repeat("a.", 5000) + "a = 1", "brackets or dotted keys are nested too deep here",
			"look for a bracket that is never closed"},
		{"a = 1\na = 2", "key a has already been defined",
			"keep one of the two; a second thing of the same sort gets its own [[…]] header"},
		{"a = \"x\nb = 1", "the quoted text is never closed", "close it with the quote it begins with"},
		{"a = [1\nb = 2", "the list of a is never closed", "put ] after its last item"},
		{"a = [1\n[b]\nc = 2", "the list of a is never closed", "put ] after its last item"},
		{"a = [1 2]", "a list goes on here without a comma", "put a comma after each item, and ] after the last"},
		{"a = [\"north 8ft, \"west 5ft\"]", "a quote is missing: the quotes here do not pair",
			`each text begins and ends with one: "north 8ft"`},
		{"a = True", "text and lengths with a unit stand in quotes", `write a = "True"`},
		{"pitch = 1,2", "a figure takes a decimal point, not a comma", "write pitch = 1.2"},
		{"a = 1;", "a line ends without ;", "take the ; out"},
		{"a = 1 // one", "a comment begins with #, not with //", "write # for the //"},
		{"a: 1", "a key and its value are joined by =, not :", "write a = …"},
		{"roll width = 1", "a key is one word, without blanks", "write roll_width = …"},
		{"a =", "a has no value", "put one behind the =, or take the line out"},
		{"a", "a word without a value", "a line is key = value; a comment begins with #"},
		{"a = 1 b = 2", "a second key on one line", "put each key on a line of its own"},
		{`a = "C:\Users"`, `a backslash in double quotes begins an escape, such as \n`,
			"put the text in single quotes, which keep it as it is, or write / for it"},
		{"[[a]", "a header with 2 brackets before its name and 1 bracket behind", "write [[a]]"},
		{"a = \"x\" y", "something stands behind the quoted text",
			"quotes go round all of it, and a comment begins with #"},
		{"[m]\na = 1\n[m]\nb = 2", "key m has already been defined", "put the keys of both under one [m]"},
		{"pitch 30", "there is no = in this line", "a line is key = value; a comment begins with #"},
	}
	for _, c := range tests {
		_, slips := Mend([]byte(c.in), func(string) int { return 0 })
		if _, err := Parse([]byte(c.in)); err == nil || len(slips) != 1 {
			t.Errorf("%.40q: %v, and %d slips, want one", c.in, err, len(slips))
			continue
		}
		e := slips[0]
		if e.Message != c.message || e.Hint != c.hint {
			t.Errorf("%.40q:\n got %q / %q\nwant %q / %q", c.in, e.Message, e.Hint, c.message, c.hint)
		}
	}
}

// FuzzMend: of whatever is no TOML something is said, within the file; and what
// is read round it has its places in the file.
func FuzzMend(f *testing.F) {
	for _, s := range seeds {
		f.Add(s)
		f.Add(strings.Replace(s, "]", "", 1))
		f.Add(strings.Replace(s, "\"", "", 1))
	}
	f.Add("[a.b]\n[[a]]\n[[a.b]\nx = [1\ny = 2 z = 3\ny == 4\n[q r]\n\"")
	f.Fuzz(func(t *testing.T, data string) {
		if _, err := Parse([]byte(data)); err == nil {
			return
		}
		root, slips := Mend([]byte(data), func(path string) int { return len(path) % 3 })
		if len(slips) == 0 {
			t.Errorf("nothing is said of %q", data)
		}
		for _, s := range slips {
			if s.Message == "" || s.Range.Start < 0 || s.Range.End < s.Range.Start || s.Range.End > len(data)+1 {
				t.Errorf("%q: %+v", data, s)
			}
		}
		if root != nil {
			spansInside(t, root, len(data))
		}
	})
}
