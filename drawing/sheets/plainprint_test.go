package sheets

import (
	"errors"
	"fmt"
	"testing"

	"oxturn/drawing"
	"oxturn/drawing/setting"
)

// TestFinePrintOnlyWhereItSavesASheet: small letters are hard to read where one kneels, and paper
// is left white beside them for nothing.
func TestFinePrintOnlyWhereItSavesASheet(t *testing.T) {
	blocks := []setting.Block{setting.List{Paras: []string{"Cut the roll."}, Fine: true},
		setting.Table{Cols: []setting.Column{{Head: "Item"}}, Rows: [][]setting.Cell{setting.Row("Grout")}, Fine: true}}
	var plain []setting.Block
	setOn := func(n int, err error) func([]setting.Block) ([]*setting.Page, error) {
		return func(b []setting.Block) ([]*setting.Page, error) {
			plain = b
			return make([]*setting.Page, n), err
		}
	}
	fine := make([]*setting.Page, 2)
	for _, c := range []struct {
		takes int
		err   error
		want  int
	}{{1, nil, 1}, {2, nil, 2}, {3, nil, 2}, {1, errors.New("no room"), 2}} {
		if got := inPlainPrint([][]setting.Block{blocks}, fine, setOn(c.takes, c.err)); len(got) != c.want {
			t.Errorf("plain print takes %d sheets (%v): %d are drawn", c.takes, c.err, len(got))
		}
	}
	if plain[0].(setting.List).Fine || plain[1].(setting.Table).Fine {
		t.Errorf("still in fine print: %+v", plain)
	}
	plain = nil
	if inPlainPrint([][]setting.Block{plain}, fine, setOn(1, nil)); plain != nil {
		t.Error("what has no fine print was set again")
	}
}

// TestTakeOffOfOneRoomCanBeRead: on A4 it fills its sheet in letters of the usual height.
func TestTakeOffOfOneRoomCanBeRead(t *testing.T) {
	set, err := Set(planOf(t, fmt.Sprintf(wideRoom, "[0, 0], [9000, 0], [9000, 5000], [0, 5000]", "5000, 0", "A4")))
	if err != nil {
		t.Fatal(err)
	}
	lines := 0
	for _, s := range set {
		if !kindNamed(takeOffID).Has(s.ID) {
			continue
		}
		for _, text := range s.Texts() {
			if lines++; text.Height < setting.Note {
				t.Errorf("%q is %.1f mm high", text.Text, text.Height)
			}
		}
	}
	if lines < 30 {
		t.Errorf("%d texts", lines)
	}
}

// TestNoFinePrintOnLargePaper: notes that do not go on one sheet of a form's paper are set in the usual letters.
func TestNoFinePrintOnLargePaper(t *testing.T) {
	d := example(t, "bath") // on tabloid
	fine := setting.List{Head: "Limits", Number: 1, Fine: true, Paras: make([]string, 120)}
	for i := range fine.Paras {
		fine.Paras[i] = "Nothing on the floor that holds its warmth back, neither rugs nor mattresses."
	}
	pages, err := notesOn(d.plan, d.pages[0], []setting.Block{fine})
	if err != nil || len(pages) == 0 {
		t.Fatal(len(pages), err)
	}
	for _, pg := range pages {
		if pg.Sheet.Paper.Name == "letter" {
			t.Fatal("the notes go on one form, which tries nothing")
		}
		for _, text := range pg.Sheet.Texts() {
			if text.Height < drawing.H25 {
				t.Fatalf("%q is %.1f mm high on %s", text.Text, text.Height, pg.Sheet.Paper.Name)
			}
		}
	}
}
