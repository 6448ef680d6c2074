package symbols

import (
	"github.com/boombuler/barcode/qr"

	"oxturn/drawing"
)

// CodeQuiet is the white that a code needs about it, in modules (ISO/IEC 18004, 9.1).
const CodeQuiet = 4

// CodeRows returns the dark modules of a QR code (ISO/IEC 18004) of a text, row by row
// without the white about it. A seventh of it may be spoilt (level M). The error is
// that the text is too long for any code.
func CodeRows(text string) ([][]bool, error) {
	c, err := qr.Encode(text, qr.M, qr.Unicode)
	if err != nil {
		return nil, err
	}
	n := c.Bounds().Dx()
	rows := make([][]bool, n)
	for y := range rows {
		rows[y] = make([]bool, n)
		for x := range rows[y] {
			r, _, _, _ := c.At(x, y).RGBA()
			rows[y][x] = r == 0
		}
	}
	return rows, nil
}

// Code draws a QR code's modules, each so large in mm, from its upper left corner:
// one path, so that no seam shows between modules.
func Code(at drawing.Pt, rows [][]bool, module float64, title string) drawing.Item {
	var segs []drawing.Seg
	for y, row := range rows {
		for x := 0; x < len(row); x++ {
			from := x
			for x < len(row) && row[x] {
				x++
			}
			if x > from {
				segs = append(segs, drawing.Rectangle(drawing.Box{X0: at.X + float64(from)*module,
					Y0: at.Y + float64(y)*module, X1: at.X + float64(x)*module, Y1: at.Y + float64(y+1)*module})...)
			}
		}
	}
	return &drawing.Path{Layer: drawing.LayerMarks, Title: title, Segs: segs, Fill: drawing.Filled(drawing.Black)}
}
