package photo

import (
	"encoding/binary"
	"encoding/hex"
	"math"
	"slices"
	"strings"
	"testing"
	"time"
)

// bytesOf reads bytes written by hand: hex, and text in quotes.
func bytesOf(t *testing.T, s string) (out []byte) {
	t.Helper()
	for i, part := range strings.Split(s, "'") {
		if i%2 == 1 {
			out = append(out, part...)
			continue
		}
		b, err := hex.DecodeString(strings.Join(strings.Fields(part), ""))
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, b...)
	}
	return out
}

// Two structures of TIFF 6.0 with Exif's tags (CIPA DC-008, 4.6), byte for byte by hand: an
// entry is its tag, its kind, how many, and the value or where it is.
const (
	bigEndian = `'MM' 002a 00000008
		0004
		0112 0003 00000001 0006 0000
		0132 0002 00000014 0000003e
		8769 0004 00000001 00000052
		8825 0004 00000001 00000078
		00000000
		'2026:03:04 10:11:12' 00
		0001
		9003 0002 00000014 00000064
		00000000
		'2026:01:02 03:04:05' 00
		0004
		0001 0002 00000002 'S' 00 0000
		0002 0005 00000003 000000ae
		0003 0002 00000002 'W' 00 0000
		0004 0005 00000003 000000c6
		00000000
		00000021 00000001 00000033 00000001 00000bfb 00000064
		00000047 00000001 0000001e 00000002 00000000 00000001`
	littleEndian = `'II' 2a00 08000000
		0200
		1201 0400 01000000 08000000
		3201 0200 0b000000 26000000
		00000000
		'2025:12:31' 00`
)

// TestExifByHand: 33° 51' 30.67" south is 33.858519°, and 71° 15' west 71.25°.
func TestExifByHand(t *testing.T) {
	e := readExif(bytesOf(t, bigEndian))
	if e.turn != 6 || e.taken.Format(time.DateOnly) != "2026-01-02" || e.place == nil ||
		math.Abs(e.place.North+33.858519444) > 1e-8 || math.Abs(e.place.East+71.25) > 1e-12 {
		t.Errorf("%+v, %+v", e, e.place)
	}
	e = readExif(bytesOf(t, littleEndian))
	if e.turn != 8 || e.taken.Format(time.DateOnly) != "2025-12-31" || e.place != nil {
		t.Errorf("%+v", e)
	}
}

// TestExifWithSlips: what is broken is not said, and all else is read.
func TestExifWithSlips(t *testing.T) {
	whole := bytesOf(t, bigEndian)
	const turn, exif, gps, taken, lat = 10, 34, 46, 0x54, 0x86 // where their entries begin
	type read struct {
		turn  orientation
		taken string
		place bool
	}
	all := read{6, "2026-01-02", true}
	noDay, noTurn, noPlace := all, all, all
	noDay.taken, noTurn.turn, noPlace.place = "2026-03-04", upright, false
	for _, c := range []struct {
		name   string
		change func(b []byte) []byte
		want   read
	}{
		{"as it is", func(b []byte) []byte { return b }, all},
		{"orientation 9", func(b []byte) []byte { b[turn+9] = 9; return b }, noTurn},
		{"orientation 0", func(b []byte) []byte { b[turn+9] = 0; return b }, noTurn},
		{"orientation 1", func(b []byte) []byte { b[turn+9] = 1; return b }, noTurn},
		{"orientation 8", func(b []byte) []byte { b[turn+9] = 8; return b }, read{8, "2026-01-02", true}},
		{"a kind there is not", func(b []byte) []byte { b[turn+3] = 13; return b }, noTurn},
		{"a number as text", func(b []byte) []byte { b[turn+3] = 2; return b }, noTurn},
		{"a day as numbers", func(b []byte) []byte { b[taken+3] = 7; return b }, noDay},
		{"a month 13", func(b []byte) []byte { b[0x64+6] = '3'; b[0x64+5] = '1'; return b }, noDay},
		{"a day too far away", func(b []byte) []byte { b[taken+10] = 1; return b }, noDay},
		{"a day of nine letters", func(b []byte) []byte { b[taken+7] = 9; return b }, noDay},
		{"an Exif directory beyond the end", func(b []byte) []byte { b[exif+10] = 1; return b }, noDay},
		{"none of it", func(b []byte) []byte { b[exif+11] = 0; return b }, noDay},
		{"a place beyond the end", func(b []byte) []byte { b[gps+10] = 1; return b }, noPlace},
		{"two ratios", func(b []byte) []byte { b[lat+7] = 2; return b }, noPlace},
		{"four ratios", func(b []byte) []byte { b[lat+7] = 4; return b }, noPlace},
		{"ratios with a sign", func(b []byte) []byte { b[lat+3] = 10; return b }, noPlace},
		{"a ratio over 0", func(b []byte) []byte { b[0xb5] = 0; return b }, noPlace},
		{"91 degrees", func(b []byte) []byte { b[0xb1] = 91; return b }, noPlace},
		{"a last ratio cut short", func(b []byte) []byte { return b[:len(b)-1] }, noPlace},
		{"seven bytes", func(b []byte) []byte { return b[:7] }, read{upright, "0001-01-01", false}},
		{"eight bytes", func(b []byte) []byte { return b[:8] }, read{upright, "0001-01-01", false}},
		{"a directory cut in its first entry", func(b []byte) []byte { return b[:21] },
			read{upright, "0001-01-01", false}},
		{"and in its second", func(b []byte) []byte { return b[:33] }, read{6, "0001-01-01", false}},
		{"just after its first", func(b []byte) []byte { return b[:22] }, read{6, "0001-01-01", false}},
		{"a directory whose count is cut", func(b []byte) []byte { return b[:9] }, read{upright, "0001-01-01", false}},
	} {
		e := readExif(c.change(slices.Clone(whole)))
		if got := (read{e.turn, e.taken.Format(time.DateOnly), e.place != nil}); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

// TestPlacesOnEarth: the poles and the line of the date are on it.
func TestPlacesOnEarth(t *testing.T) {
	for p, want := range map[Place]bool{{90, 180}: true, {-90, -180}: true, {90.01, 0}: false, {-90.01, 0}: false,
		{0, 180.01}: false, {0, -180.01}: false, {}: true} {
		if p.sound() != want {
			t.Errorf("%+v is on earth: %v", p, !want)
		}
	}
}

// TestSegmentsByHand: a marker is ff and its number, then a length that counts itself (ITU-T
// T.81, B.1.1.4); any number of ff may come before it as fill (B.1.1.2). What comes with the
// scan is no longer read.
func TestSegmentsByHand(t *testing.T) {
	for _, c := range []struct{ name, data, want string }{
		{"two", "ffd8 ffe1 0004 'ab' fffe 0003 'c' ffda 0002 fffe 0003 'd'", "e1:ab fe:c"},
		{"filled", "ffd8 ffff ffe1 0003 'a' ffffff fe 0003 'b' ffda", "e1:a fe:b"},
		{"empty", "ffd8 ffe1 0002 fffe 0003 'b'", "e1: fe:b"},
		{"a length of one", "ffd8 ffe1 0001 fffe 0003 'b'", ""},
		{"cut short", "ffd8 ffe1 0003 'a' fffe 0004 'b'", "e1:a"},
		{"to the end", "ffd8 ffe1 0003 'a' fffe 0004 'bc'", "e1:a fe:bc"},
		{"its length cut", "ffd8 ffe1 0003 'a' fffe 00", "e1:a"},
		{"its length the last", "ffd8 ffe1 0003 'a' fffe 0002", "e1:a fe:"},
		{"no marker", "ffd8 ffe1 0003 'a' 00fe 0003 'b'", "e1:a"},
		{"fill to the end", "ffd8 ffe1 0003 'a' ffff ffff ffff", "e1:a"},
		{"nothing", "ffd8", ""},
	} {
		data := bytesOf(t, c.data)
		var got []string
		all := 2
		for _, s := range segments(data) {
			got = append(got, hex.EncodeToString([]byte{s.marker})+":"+string(s.body))
			all += len(s.whole)
		}
		if strings.Join(got, " ") != c.want || all > len(data) {
			t.Errorf("%s: %v, want %s", c.name, got, c.want)
		}
	}
}

// TestNoted: a comment takes the place of any other, and all else stays, fill too.
func TestNoted(t *testing.T) {
	data := bytesOf(t, "ffd8 ffff e0 0004 'ab' fffe 0003 'x' ffff fe 0004 'yz' ffdb 0003 'q'"+
		"ffda 0002 'scan' fffe 0003 'z'")
	want := bytesOf(t, "ffd8 fffe 0007 'hello' ffff e0 0004 'ab' ffdb 0003 'q' ffda 0002 'scan' fffe 0003 'z'")
	got, err := noted(data, "hello")
	if err != nil || !slices.Equal(got, want) {
		t.Errorf("% x, %v\nwant % x", got, err, want)
	}
	if _, err := noted(data, strings.Repeat("a", 0xfff0+1)); err == nil {
		t.Error("a comment longer than its length can say is written")
	}
	long, err := noted(data, strings.Repeat("a", 0xfff0))
	if err != nil || binary.BigEndian.Uint16(long[4:]) != 0xfff2 {
		t.Errorf("%v", err)
	}
	if _, err := noted(data[:3], ""); err == nil {
		t.Error("three bytes are a picture")
	}
	if got, err := noted([]byte("\xff\xd8\xff\xd9"), "a"); err != nil ||
		string(got) != "\xff\xd8\xff\xfe\x00\x03a\xff\xd9" {
		t.Errorf("% x, %v", got, err)
	}
}
