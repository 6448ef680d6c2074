package pdf

import (
	"bytes"
	"crypto/md5"
	"encoding/xml"
	"fmt"

	"oxturn/layout/pattern"
)

// describeAll gives a document what programs look for before they show it: its
// metadata (XMP, ISO 16684-1), its language, a name of its own, and that its title
// stands over the window rather than the file's name.
func (p *rawDocument) describeAll(info Info) string {
	packet := metadata(info)
	at := p.add(fmt.Appendf(nil, "<</Type/Metadata/Subtype/XML/Length %d>>\nstream\n%s\nendstream\nendobj\n",
		len(packet), packet))
	out := fmt.Sprintf("/Metadata %d 0 R\n/ViewerPreferences<</DisplayDocTitle true>>\n", at)
	if info.Language != "" {
		out += "/Lang " + textString(info.Language) + "\n"
	}
	return out
}

// metadata is left plain and the same as what the document's own information says,
// so that programs that read no PDF can find it.
func metadata(info Info) []byte {
	var b bytes.Buffer
	b.WriteString("<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n" +
		`<x:xmpmeta xmlns:x="adobe:ns:meta/"><rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">` + "\n" +
		`<rdf:Description rdf:about="" xmlns:dc="http://purl.org/dc/elements/1.1/" ` +
		`xmlns:xmp="http://ns.adobe.com/xap/1.0/">` + "\n<dc:format>application/pdf</dc:format>\n")
	for _, x := range []struct{ name, before, text, after string }{
		{"dc:title", `<rdf:Alt><rdf:li xml:lang="x-default">`, info.Title, "</rdf:li></rdf:Alt>"},
		{"dc:creator", "<rdf:Seq><rdf:li>", info.Author, "</rdf:li></rdf:Seq>"},
		{"dc:description", `<rdf:Alt><rdf:li xml:lang="x-default">`, info.Subject, "</rdf:li></rdf:Alt>"},
		{"dc:language", "<rdf:Bag><rdf:li>", info.Language, "</rdf:li></rdf:Bag>"},
		{"xmp:CreatorTool", "", info.Creator, ""},
	} {
		if x.text == "" {
			continue
		}
		fmt.Fprintf(&b, "<%s>%s", x.name, x.before)
		xml.EscapeText(&b, []byte(clean(x.text))) // a buffer takes all
		fmt.Fprintf(&b, "%s</%s>\n", x.after, x.name)
	}
	b.WriteString("</rdf:Description></rdf:RDF></x:xmpmeta>\n<?xpacket end=\"r\"?>")
	return b.Bytes()
}

var (
	sizeEntry = pattern.Of(`(?m)^/Size \d+$`)
	infoEntry = pattern.Of(`(?s)/Info (<<.*?\n >>)\n>>\n$`)
)

// retrailed brings the trailer up to date: how many objects there are, the
// information as an object of its own, which the standard asks for (14.3.3), and a
// name made of all that is in the document.
func (p *rawDocument) retrailed() error {
	m := infoEntry().FindSubmatch(p.trailer)
	if m == nil || !sizeEntry().Match(p.trailer) {
		return errForm
	}
	at := p.add(fmt.Appendf(nil, "%s\nendobj\n", m[1]))
	sum := md5.Sum(bytes.Join(p.objects, nil))
	p.trailer = infoEntry().ReplaceAll(p.trailer, fmt.Appendf(nil, "/Info %d 0 R\n/ID[<%X><%[2]X>]\n>>\n", at, sum))
	p.trailer = sizeEntry().ReplaceAll(p.trailer, fmt.Appendf(nil, "/Size %d", len(p.objects)+1))
	return nil
}
