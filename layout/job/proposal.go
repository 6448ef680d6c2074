package job

// A ProposalTerms is what an offer stands on.
type ProposalTerms struct {
	ValidDays  int
	Tax        float64 // share of the net sum
	TaxName    string
	Markup     float64 // share of what the take-off costs; owners do not see it
	Deposit    string  // terms of payment, as they are to be printed; empty: none
	Scope      []string
	Exclusions []string
	Options    []ProposalOption
}

// A ProposalOption is something that can be had on top.
type ProposalOption struct {
	Name  string
	Code  string  // of the price list
	Count float64 // how many of that
	Price float64 // of all of it; 0: by code
}

// proposalKeys: 30 days are what most offers hold for (common practice).
func proposalKeys() []Key {
	return append(under(Key{Path: "proposal", Type: TypeTable,
		Doc:     "What the cover of a proposal offers, where status is \"proposal\"",
		Example: "[proposal]\ntax = \"8.25 %\""},
		Key{Path: "valid_days", Type: TypeWhole, Limits: Limits{Min: 1, Max: 3650}, Default: "30",
			Doc: "Days after the job's date that the offer holds", Example: "valid_days = 45"},
		Key{Path: "tax", Type: TypeShare, Limits: Limits{Max: 1}, Otherwise: "no tax is added, and the cover says so",
			Doc: "Tax on the sum", Example: `tax = "8.25 %"`},
		Key{Path: "tax_name", Type: TypeText, Default: `"Tax"`, Doc: "What that tax is called",
			Example: `tax_name = "Sales tax"`},
		Key{Path: "markup", Type: TypeNumber, Limits: Limits{Max: 10}, Otherwise: "prices are passed on as they are",
			Doc:     "Added to what the take-off costs, as a share: 0.2 for 20 %. It is on no sheet that an owner gets",
			Example: "markup = 0.2"},
		Key{Path: "deposit", Type: TypeText, Doc: "Terms of payment, as they are to be printed",
			Example: `deposit = "A third with the order, the rest at hand-over"`},
		Key{Path: "scope", Type: TypeTexts, Otherwise: "what the take-off counts",
			Doc: "What is done, beside what the take-off counts", Example: `scope = ["Old floor taken up"]`},
		Key{Path: "exclusions", Type: TypeTexts, Doc: "What is not done, beside what the take-off leaves out",
			Example: `exclusions = ["Skirting"]`},
	), under(Key{Path: "proposal.option", Type: TypeTables, Doc: "Something that can be had on top",
		Example: "[[proposal.option]]\nname = \"Spare sensor\""},
		Key{Path: "name", Type: TypeText, Required: true, Doc: "What it is", Example: `name = "Insulation board"`},
		Key{Path: "code", Type: TypeText, Otherwise: "its own price, else on request",
			Doc: "Its code in the price list, by which it is priced", Example: `code = "spare-sensor"`},
		Key{Path: "count", Type: TypeNumber, Limits: Limits{Above: true, Max: 1e6}, Default: "1",
			Doc: "How many of that code", Example: "count = 2"},
		Key{Path: "price", Type: TypeNumber, Limits: Limits{Max: 1e9}, Otherwise: "by its code",
			Doc: "What all of it costs, before markup and tax", Example: "price = 180"},
	)...)
}

func (j *Job) readProposal(t table) {
	j.Proposal = ProposalTerms{ValidDays: t.whole("valid_days"), Tax: t.num("tax"), TaxName: t.text("tax_name"),
		Markup: t.num("markup"), Deposit: t.text("deposit"), Scope: t.texts("scope"), Exclusions: t.texts("exclusions")}
	for _, o := range t.each("option") {
		j.Proposal.Options = append(j.Proposal.Options, ProposalOption{Name: o.text("name"), Code: o.text("code"),
			Count: o.num("count"), Price: o.num("price")})
	}
}
