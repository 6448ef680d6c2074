package photo

import (
	"encoding/binary"
	"strings"
	"time"
)

// A segment of a JPEG (ITU-T T.81, annex B).
type segment struct {
	marker byte
	body   []byte
	whole  []byte // with its marker, its length and the fill before them
}

const (
	mark        = 0xff // before every marker
	startOfScan = 0xda
	app1        = 0xe1
	comment     = 0xfe
)

// segments returns those before the picture itself.
func segments(data []byte) (out []segment) {
	from := 2
	for at := from; at+4 <= len(data) && data[at] == mark; {
		marker, n := data[at+1], int(binary.BigEndian.Uint16(data[at+2:]))
		if marker == mark { // a fill byte
			at++
			continue
		}
		if marker == startOfScan || n < 2 || at+2+n > len(data) {
			break
		}
		out = append(out, segment{marker, data[at+4 : at+2+n], data[from : at+2+n]})
		at += 2 + n
		from = at
	}
	return out
}

var exifHead = []byte("Exif\x00\x00")

// Tags of Exif (CIPA DC-008) that are read.
const (
	tagOrientation = 0x0112
	tagChanged     = 0x0132 // DateTime
	tagExif        = 0x8769 // where the directory of its own lies
	tagGPS         = 0x8825 // and that of the place
	tagTaken       = 0x9003 // DateTimeOriginal
	tagLatRef      = 1
	tagLat         = 2
	tagLongRef     = 3
	tagLong        = 4
)

// exif is what is read of it.
type exif struct {
	turn  orientation
	taken time.Time
	place *Place
}

// readExif reads a TIFF structure (TIFF 6.0). What is broken in it is taken as not said:
// the picture is there all the same.
func readExif(tiff []byte) exif {
	out := exif{turn: upright}
	order := binary.ByteOrder(binary.LittleEndian)
	if strings.HasPrefix(string(tiff), "MM") {
		order = binary.BigEndian
	}
	if len(tiff) < 8 {
		return out
	}
	t := tiffData{tiff, order}
	main := t.directory(order.Uint32(tiff[4:]))
	if v := t.number(main[tagOrientation]); v >= uint32(upright) && v <= uint32(turnedLeft) {
		out.turn = orientation(v)
	}
	own := t.directory(t.number(main[tagExif]))
	for _, e := range []entry{own[tagTaken], main[tagChanged]} {
		if day, err := time.Parse("2006:01:02", firstBytes(t.text(e), 10)); err == nil && out.taken.IsZero() {
			out.taken = day
		}
	}
	place := t.directory(t.number(main[tagGPS]))
	north, okN := t.degrees(place[tagLat], place[tagLatRef], "S")
	east, okE := t.degrees(place[tagLong], place[tagLongRef], "W")
	if p := (Place{north, east}); okN && okE && p.sound() {
		out.place = &p
	}
	return out
}

func firstBytes(s string, n int) string { return s[:min(n, len(s))] }

// A tiffData is one with the order of its bytes.
type tiffData struct {
	data  []byte
	order binary.ByteOrder
}

// An entry of a directory; the zero value is one that is not there.
type entry struct {
	kind  uint16
	count uint32
	value []byte // as it lies, where the entry itself or its place has it: four bytes or more
}

// entrySize is that of an entry, bytes.
const entrySize = 12

// kindSizes are the sizes of one value of the kinds that are read, bytes.
var kindSizes = [...]uint32{kindText: 1, kindShort: 2, kindLong: 4, kindRatio: 8}

// Kinds of value by their numbers.
const (
	kindText  = 2
	kindShort = 3
	kindLong  = 4
	kindRatio = 5 // of two longs
)

// directory reads the entries at an offset; 0 has none.
func (t tiffData) directory(at uint32) map[uint16]entry {
	out := map[uint16]entry{}
	if at == 0 || uint64(at)+2 > uint64(len(t.data)) {
		return out
	}
	n := int(t.order.Uint16(t.data[at:]))
	for i := range n {
		from := int(at) + 2 + entrySize*i
		if from+entrySize > len(t.data) {
			break
		}
		row := t.data[from : from+entrySize]
		e := entry{kind: t.order.Uint16(row[2:]), count: t.order.Uint32(row[4:]), value: row[8:]}
		if int(e.kind) >= len(kindSizes) {
			continue
		}
		if size := uint64(kindSizes[e.kind]) * uint64(e.count); size > 4 {
			off := uint64(t.order.Uint32(row[8:]))
			if off+size > uint64(len(t.data)) {
				continue
			}
			e.value = t.data[off : off+size]
		}
		out[t.order.Uint16(row)] = e
	}
	return out
}

// number reads a short or a long, 0 for anything else.
func (t tiffData) number(e entry) uint32 {
	switch e.kind {
	case kindShort:
		return uint32(t.order.Uint16(e.value))
	case kindLong:
		return t.order.Uint32(e.value)
	}
	return 0
}

func (t tiffData) text(e entry) string {
	if e.kind != kindText {
		return ""
	}
	return strings.TrimRight(string(e.value[:min(int(e.count), len(e.value))]), "\x00 ")
}

// degrees reads degrees, minutes and seconds as three ratios, with the letter that turns
// them round.
func (t tiffData) degrees(e, ref entry, less string) (float64, bool) {
	if e.kind != kindRatio || e.count != 3 {
		return 0, false
	}
	sum, per := 0.0, 1.0
	for i := range 3 {
		over := t.order.Uint32(e.value[8*i+4:])
		if over == 0 {
			return 0, false
		}
		sum += float64(t.order.Uint32(e.value[8*i:])) / float64(over) / per
		per *= 60
	}
	if t.text(ref) == less {
		sum = -sum
	}
	return sum, true
}
