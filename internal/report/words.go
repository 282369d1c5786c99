package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"jounce/internal/draw"
	"jounce/internal/draw/pdf"
	"jounce/internal/finding"
	"jounce/quantity"
	"jounce/source"
)

const nbsp = "\u00a0"

// letters is a text as the faces can letter it: a sign that they lack is named
// by its number.
func letters(s string) string {
	if !utf8.ValidString(s) {
		s = strings.ToValidUTF8(s, "\ufffd")
	}
	s = strings.Map(func(r rune) rune {
		switch {
		case r == '\n' || r == '\r' || r == '\t':
			return ' '
		case unicode.Is(unicode.Cf, r) || r == '\ufe0f':
			return -1 // directions and joiners have no shape
		}
		return r
	}, s)
	for _, r := range draw.Missing(s) {
		s = strings.ReplaceAll(s, string(r), fmt.Sprintf("[U+%04X]", r))
	}
	return s
}

func plain(s string) pdf.Run { return pdf.Plain(letters(s)) }
func claim(s string) pdf.Run { return pdf.Claim(letters(s)) }

func in(st pdf.Style, s string) pdf.Run { return pdf.In(st, letters(s)) }

func upper(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}

func mark(v finding.Verdict) draw.Mark { return draw.Marks[v] }

// number is the figure of a finding in two parts: "0.03" and "± 0.04 bar",
// "0" and "of 26".
func number(f finding.Finding) (figure, rest string) {
	if f.Shown != "" {
		head, tail, _ := strings.Cut(f.Shown, " ")
		if head != "" && strings.Trim(head, "0123456789") == "" {
			return head, tail
		}
		return "", f.Shown
	}
	return parts(f.Value)
}

// parts is a number with its doubt and unit apart.
func parts(n finding.Number) (figure, rest string) {
	if !n.Known() {
		return "", "not read"
	}
	s := n.String()
	if i := strings.Index(s, "±"); i >= 0 {
		return strings.Trim(s[:i], " "+nbsp), s[i:]
	}
	unit := n.Unit.Name()
	return strings.TrimRight(strings.TrimSuffix(s, unit), " "+nbsp), unit
}

// bare is a number without its unit: the unit stands in the head of the table.
func bare(n finding.Number) string {
	if !n.Known() {
		return "not read"
	}
	return strings.TrimRight(strings.TrimSuffix(n.String(), n.Unit.Name()), " "+nbsp)
}

// alone is a number without doubt and unit.
func alone(n finding.Number) string {
	f, _ := parts(n)
	return or(f, "not read")
}

// graded is the verdict with the grade that follows it.
func graded(f finding.Finding) string {
	s := f.Verdict.String() + "."
	if f.Verdict != finding.Pass {
		s += " " + f.Grade.String() + "."
	}
	return s
}

// worst says how near the likely values come to where pass ends, when the
// finding's own words do not.
func worst(f finding.Finding) string {
	if strings.Contains(f.Why, "orst likely") || !f.Value.Known() || f.Value.Half == 0 {
		return ""
	}
	var out []string
	for _, l := range f.Limits {
		if l.Kind != f.Value.Kind || len(f.Limits) > 1 && l.Grade == finding.Stops && f.Verdict == finding.Pass && hasTighter(f.Limits, l) {
			continue
		}
		w := finding.Number{Value: f.Value.Worst(l), Kind: f.Value.Kind, Unit: f.Value.Unit}
		out = append(out, fmt.Sprintf("Worst likely %s; pass ends at %s.", quantity.Format(w.Kind, w.Value, w.Unit, digits(f.Value)), l.Text()))
	}
	return strings.Join(out, " ")
}

// hasTighter tells that another limit on the same side ends pass sooner.
func hasTighter(all []finding.Limit, l finding.Limit) bool {
	for _, o := range all {
		if o.Below == l.Below && (o.Below && o.Value > l.Value || !o.Below && o.Value < l.Value) {
			return true
		}
	}
	return false
}

// digits is how many decimals a number is shown with.
func digits(n finding.Number) int {
	f, _ := parts(n)
	if _, d, ok := strings.Cut(f, "."); ok {
		return len(d)
	}
	return 0
}

// after is what follows a finding's claim: verdict and grade, why, the least
// change, what would settle it, what is missing, who signed.
func after(f finding.Finding, verdict, bold, why bool) []pdf.Run {
	var out []pdf.Run
	say := func(s string) {
		if s = strings.TrimSpace(s); s != "" {
			out = append(out, plain(s+" "))
		}
	}
	if verdict {
		out = append(out, pdf.Run{S: graded(f) + " ", Bold: bold})
	}
	if f.NotEvidence != "" {
		out = append(out, claim("Not evidence: "), plain(stop(f.NotEvidence)+" "))
	}
	say(f.Why)
	if why {
		say(worst(f))
	}
	if f.Verdict != finding.Pass {
		say(f.Least)
	}
	say(f.Settle)
	if len(f.Needs) > 0 {
		var need []string
		for _, g := range f.Needs {
			need = append(need, strings.TrimLeft(g.Label, ", "))
		}
		out = append(out, claim("Not read: "), plain(stop(strings.Join(need, "; "))+" "))
	}
	if s := f.Signed; s != nil {
		words := "Signed: " + s.Who
		if s.At != "" {
			words += ", " + s.At
		}
		out = append(out, claim(words+". "), plain("Reason: "+stop(s.Reason)+" "))
	} else if f.Holds() && f.Grade == finding.OwnerSigns {
		say("No reason is signed yet.")
	}
	if f.Source != "" {
		out = append(out, pdf.Source(letters(string(f.Source))))
	}
	return out
}

// stop ends a sentence.
func stop(s string) string {
	s = strings.TrimSpace(s)
	if s == "" || strings.ContainsAny(s[len(s)-1:], ".!?") {
		return s
	}
	return s + "."
}

// tally is the count of a list in words: "3 fail, 2 too close to call".
func tally(t finding.Tally) string {
	var out []string
	for v, n := range t {
		if n > 0 {
			out = append(out, fmt.Sprintf("%d %s", n, strings.ToLower(finding.Verdict(v).String())))
		}
	}
	return or(strings.Join(out, ", "), "none")
}

// legend explains the source marks that a page uses: the words of the trade,
// and the published sources.
func legend(list []finding.Finding, more ...source.Mark) (out, published []pdf.Run) {
	seen := map[source.Mark]bool{"": true}
	var printed []source.Mark
	add := func(m source.Mark) {
		if seen[m] {
			return
		}
		seen[m] = true
		if m.Published() {
			printed = append(printed, m)
			return
		}
		if e := m.Explain(); e != "" {
			out = append(out, pdf.Source(letters(string(m))), plain(short(e)+" "))
		}
	}
	for _, m := range more {
		add(m)
	}
	for _, f := range list {
		add(f.Source)
	}
	for _, m := range printed {
		c, _ := m.Citation()
		published = append(published, pdf.Source(letters(string(m))), plain(cited(c)+" "))
	}
	return out, published
}

// short is a mark's words without what a reader of the paper does not need.
func short(e string) string {
	e, _, _ = strings.Cut(e, ",")
	return strings.TrimSuffix(e, ".")
}

// cited names a published source: who, what, when.
func cited(c source.Citation) string {
	var out []string
	for _, s := range []string{c.Author, c.Title, c.Year} {
		if s != "" {
			out = append(out, s)
		}
	}
	return strings.Join(out, ", ") + "."
}
