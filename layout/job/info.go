package job

import "time"

// Info fills the title block.
type Info struct {
	Title, Number, Client, Site, Contractor string
	DrawnBy, CheckedBy, ApprovedBy          string
	Permit                                  string
	Date                                    time.Time // zero when the file gives none
	Status                                  Status
}

// Status is what a sheet may be used for.
type Status int

// The statuses a job file may name.
const (
	Proposal Status = iota
	ForInstallation
	AsLaid
)

// String returns the status as the job file spells it.
func (s Status) String() string {
	return [...]string{"proposal", "for installation", "as laid"}[s]
}

func (j *Job) readInfo(t table) {
	j.Info = Info{
		Title: t.text("title"), Number: t.text("number"), Client: t.text("client"), Site: t.text("site"),
		Contractor: t.text("contractor"),
		DrawnBy:    t.text("drawn_by"), CheckedBy: t.text("checked_by"), ApprovedBy: t.text("approved_by"),
		Permit: t.text("permit"),
		Date:   t.date("date"),
	}
	for _, s := range []Status{Proposal, ForInstallation, AsLaid} {
		if s.String() == t.text("status") {
			j.Info.Status = s
		}
	}
}
