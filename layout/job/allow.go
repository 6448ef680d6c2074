package job

func allowKeys() []Key {
	return under(Key{Path: "allow", Type: TypeTables,
		Doc:     "A warning that is known and accepted, so that it is not said again",
		Example: "[[allow]]\nid = \"W004\"\nreason = \"tub drawn over the alcove on purpose\""},
		Key{Path: "id", Type: TypeText, Required: true, Doc: "The warning's name", Example: `id = "W004"`},
		Key{Path: "reason", Type: TypeText, Required: true, Doc: "Why it is accepted",
			Example: `reason = "tub drawn over the alcove on purpose"`},
	)
}

// An allowance is a warning that the job accepts.
type allowance struct {
	reason string
	span   Span
	used   bool
}

// Allow keeps warnings of an ID out of the report from now on.
func (r *Report) Allow(id, reason string, at Span) {
	if r.allowed == nil {
		r.allowed = map[string]*allowance{}
	}
	r.allowed[id] = &allowance{reason: reason, span: at}
	r.allowedIDs = append(r.allowedIDs, id)
}

// Finish adds a warning for every allowed ID that no phase has warned of. The
// command calls it once, after the last phase.
func (r *Report) Finish() {
	for _, id := range r.allowedIDs {
		if a := r.allowed[id]; !a.used {
			r.Warnf("W006", a.span, "take the table out", "the job allows %s, which nothing in it calls for", id)
		}
	}
}

func readAllowed(top table) {
	seen := namesSeen{}
	for _, t := range top.each("allow") {
		id := t.text("id")
		if t.broken() {
			continue
		}
		if len(id) != 4 || id[0] != 'W' {
			t.errorf("id", "errors cannot be allowed, only warnings, by the name printed with them",
				"%q is not the name of a warning", id)
			continue
		}
		seen.check(t, "id", id, "allowed warning")
		top.rd.report.Allow(id, t.text("reason"), t.at("id"))
	}
}
