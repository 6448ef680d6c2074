// Package preview serves a page that shows a job's sheets while its file is
// being written: the last good drawing, what is wrong with the file now, and
// the tables. It knows nothing of jobs: it is told what to show.
//
//	file saved -> Server.Show(State) -> event -> page fetches state and sheets
package preview

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"strings"
)

// A State is all that the page shows at one time.
type State struct {
	Job      string    `json:"job"`     // name of the job file
	Summary  []string  `json:"summary"` // a few lines of text
	Problems []Problem `json:"problems"`
	Sheets   []Sheet   `json:"sheets"` // none: this state has no drawing of its own
	Cables   []Cable   `json:"cables"`
	Tables   []Table   `json:"tables"`
	Units    string    `json:"units"` // "mm" or "in": how lengths are shown
	PDF      []byte    `json:"-"`
	PDFName  string    `json:"pdf"`

	Stale   bool   `json:"stale"`   // the drawing is older than the file; set by Show
	Busy    bool   `json:"busy"`    // a newer one is being drawn; set by Drawing
	Version string `json:"version"` // changes with everything else; set by Show
}

// A Sheet is one drawing.
type Sheet struct {
	ID    string  `json:"id"`
	Title string  `json:"title"`
	Ratio float64 `json:"ratio"` // mm of floor for a mm of paper, 0: not to scale
	SVG   []byte  `json:"-"`
	Hash  string  `json:"hash"` // set by Show
}

// A Problem is an error or a warning with its place in a file.
type Problem struct {
	Severity string   `json:"severity"` // "error" or "warning"
	ID       string   `json:"id"`
	Place    string   `json:"place"` // file:line:column, as far as known
	Message  string   `json:"message"`
	Hint     string   `json:"hint"`
	Notes    []string `json:"notes"`
	Told     string   `json:"told,omitempty"` // the message in the reader's language, where that is not English
	ToldHint string   `json:"toldHint,omitempty"`
	Line     string   `json:"line"`  // the file's line, empty when not known
	Start    int      `json:"start"` // first character of it that is meant, from 0
	Length   int      `json:"length"`
}

// A Cable lets the page say what part of a cable lies under the pointer. On
// the sheets it is the object titled "heating cable" and its ID.
type Cable struct {
	ID     string  `json:"id"`
	Label  string  `json:"label"`
	Length float64 `json:"length"` // routed, mm
	Runs   []Run   `json:"runs"`
}

// A Run is a straight pass of a cable; End is the running length at its end.
type Run struct {
	Number int     `json:"number"`
	End    float64 `json:"end"`
}

// A Table is a take-off or a report. Right tells which columns hold figures.
type Table struct {
	ID      string     `json:"id"`
	Title   string     `json:"title"`
	Columns []string   `json:"columns"`
	Right   []bool     `json:"right"`
	Rows    [][]string `json:"rows"`
}

// after completes a state: where it has no drawing of its own it takes over
// that of the state before, as stale.
func (st State) after(old State) State {
	st.Stale, st.Busy = false, false
	if len(st.Sheets) == 0 && len(old.Sheets) > 0 {
		st.Sheets, st.Cables, st.Tables, st.Summary, st.Units = old.Sheets, old.Cables, old.Tables, old.Summary,
			old.Units
		st.PDF, st.PDFName, st.Stale = old.PDF, old.PDFName, true
	}
	st = st.listed()
	for i := range st.Sheets {
		st.Sheets[i].Hash = hash(st.Sheets[i].SVG)
	}
	return st.named()
}

// listed is a state whose lists are lists, if empty ones, as the page wants them.
func (st State) listed() State {
	st.Summary, st.Problems = append([]string{}, st.Summary...), append([]Problem{}, st.Problems...)
	st.Cables, st.Tables = append([]Cable{}, st.Cables...), append([]Table{}, st.Tables...)
	st.Sheets = append([]Sheet{}, st.Sheets...)
	return st
}

// named is a state with the version that is all of it.
func (st State) named() State {
	st.Version = ""
	st.Version = hash(append(st.body(), hash(st.PDF)...))
	return st
}

// body is the state as the page fetches it.
func (st State) body() []byte {
	out, err := json.Marshal(st)
	if err != nil {
		return []byte("{}") // a figure that is not finite: nothing to show
	}
	return out
}

// title is the job file's name without the folders before it.
func (st State) title() string { return st.Job[strings.LastIndexAny(st.Job, `/\\`)+1:] }

func hash(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:8])
}
