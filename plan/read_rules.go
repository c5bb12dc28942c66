package plan

import (
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"moiety/plan/rules"
)

// ReadRules reads a rule file of the user's strictly. It holds a set of its
// own, or, with base, a shipped set with figures put in the place of its own,
// added to it or, by the limit none, taken out of it. What a figure leaves out
// of clause, edition and source is said of the file as a whole. name is the
// file's name for messages; what is wrong comes as a *Problems, all of it
// together.
func ReadRules(r io.Reader, name string) (*rules.Set, error) {
	problems := &Problems{File: name}
	top, err := readYAML(r, "rule file", name, problems)
	if err != nil {
		return nil, err
	}
	if top == nil {
		problems.add(nil, "", "the rule file is empty; it has the key figures, and base for the set that it amends")
		return nil, problems.err()
	}
	sc := scope{problems: problems, metre: 1, unit: string(Metres), typed: true}
	file := ruleFile{name: name}
	if f, ok := sc.object(top, "a rule file", "set", "name", "base", "lengths", "edition", "note", "sources", "figures"); ok {
		file.read(f)
	}
	if err := problems.err(); err != nil {
		return nil, err
	}
	return file.set, nil
}

// ruleFile is a rule file being read.
type ruleFile struct {
	name    string
	edition string // of figures that say none
	sources map[string]rules.Source
	set     *rules.Set
}

func (r *ruleFile) read(f fields) {
	r.set = &rules.Set{Lengths: rules.Metric}
	base := f.word("base", rules.ShippedIDs())
	if shipped, ok := rules.Shipped(base); ok {
		r.set = shipped
		r.set.Base = base
	}
	r.set.ID = f.text("set")
	if r.set.ID == "" {
		r.set.ID = strings.TrimSuffix(strings.TrimSuffix(filepath.Base(r.name), filepath.Ext(r.name)), ".rules")
	}
	if name := f.text("name"); name != "" {
		r.set.Name = name
	} else if base != "" {
		r.set.Name += ", as amended by " + r.set.ID
	} else {
		r.set.Name = r.set.ID
	}
	if lengths := f.word("lengths", []string{string(rules.Metric), string(rules.FeetInches)}); lengths != "" {
		r.set.Lengths = rules.Lengths(lengths)
	}
	if note := strings.Join(strings.Fields(f.text("note")), " "); note != "" {
		r.set.Note = note
	}
	r.edition = f.text("edition")
	r.readSources(f)
	r.readFigures(f)
}

func (r *ruleFile) readSources(f fields) {
	r.sources = map[string]rules.Source{}
	n := f.get("sources")
	if n == nil {
		return
	}
	if n.kind != objectNode {
		f.bad(n, "sources is an object of sources by name, not %s", n.shown())
		return
	}
	for _, m := range n.again {
		f.bad(&node{line: m.line, column: m.column, parent: n, key: m.key}, "the key %s stands here twice", quote(m.key))
	}
	for _, m := range n.members {
		if s, ok := f.object(m.value, "a source", "title", "url"); ok {
			if s.get("title") == nil {
				s.missing("title", "")
			}
			r.sources[m.key] = rules.Source{Title: s.text("title"), URL: s.text("url")}
		}
	}
}

func (r *ruleFile) readFigures(f fields) {
	n := f.get("figures")
	if n == nil {
		f.missing("figures", ": what the set says, one figure by its id (moiety rules SET lists them)")
		return
	}
	var ids []string
	for _, t := range rules.Vocabulary() {
		ids = append(ids, string(t.ID))
	}
	g, ok := f.object(n, "figures", ids...)
	if !ok {
		return
	}
	for _, m := range n.members {
		if term, known := rules.TermOf(rules.ID(m.key)); known {
			r.readFigure(g.scope, term, m.value)
		}
	}
	for _, pair := range rules.Pairs() {
		least, okLeast := r.set.Get(pair[0])
		most, okMost := r.set.Get(pair[1])
		if okLeast && okMost && least.Value() > most.Value() {
			at := n.get(string(pair[0]))
			if at == nil {
				at = n.get(string(pair[1]))
			}
			if at != nil {
				g.bad(at, "%s %s and %s %s leave nothing between them", pair[0], least.Limit, pair[1], most.Limit)
			}
		}
	}
}

// noFigure is the limit that takes a figure of the base out.
const noFigure = "none"

// readFigure reads one figure: its limit alone, or an object with the rest.
func (r *ruleFile) readFigure(sc scope, term rules.Term, n *node) {
	sc.about = string(term.ID)
	was, amends := r.set.Get(term.ID)
	figure := rules.Figure{Term: term, When: was.When, Advice: was.Advice, Edition: r.edition, Status: rules.Own}
	if amends {
		figure.Clause = "amends " + was.Clause
	}
	limit := n
	if n.kind == objectNode {
		f, ok := sc.object(n, "a figure", "limit", "advice", "when", "clause", "edition", "source", "status")
		if !ok {
			return
		}
		if limit = f.get("limit"); limit == nil {
			f.missing("limit", "")
			return
		}
		r.details(f, &figure)
	}
	if limit.kind == textNode && limit.text == noFigure {
		r.set.Drop(term.ID)
		return
	}
	if limit.kind != textNode && limit.kind != numberNode && limit.kind != boolNode {
		sc.bad(limit, "the limit is %s, not %s", term.Quantity, limit.shown())
		return
	}
	var err error
	if figure.Limit, err = rules.ParseMeasure(limit.text, term.Quantity); err != nil {
		sc.bad(limit, "%s", err)
		return
	}
	if figure.Source.Title == "" {
		figure.Source.Title = filepath.Base(r.name)
	}
	if figure.Edition == "" {
		figure.Edition = r.set.ID
	}
	if figure.Clause == "" {
		figure.Clause = r.set.ID
	}
	r.set.Put(figure)
}

// details reads what a figure says beside its limit.
func (r *ruleFile) details(f fields, figure *rules.Figure) {
	figure.Advice = f.truth("advice", figure.Advice)
	for _, said := range []struct {
		key  string
		into *string
	}{{"when", &figure.When}, {"clause", &figure.Clause}, {"edition", &figure.Edition}} {
		if text := f.text(said.key); text != "" {
			*said.into = text
		}
	}
	var statuses []string
	for _, s := range rules.Statuses() {
		statuses = append(statuses, string(s))
	}
	if status := f.word("status", statuses); status != "" {
		figure.Status = rules.Status(status)
	}
	if title := f.text("source"); title != "" {
		source, ok := r.sources[title]
		if !ok {
			source = rules.Source{Title: title}
		}
		figure.Source = source
	}
}

// noRules asks for no checks at all.
const noRules = "none"

// isRuleFile tells whether a brief's rules name a file, not a set.
func isRuleFile(text string) bool {
	ext := strings.ToLower(filepath.Ext(text))
	return ext == ".yaml" || ext == ".yml" || strings.ContainsAny(text, `/\`)
}

// RuleFile is the rule file that a brief names, as written; "" where it names a
// set or nothing.
func (b *Brief) RuleFile() string {
	if isRuleFile(b.Rules) {
		return b.Rules
	}
	return ""
}

// errRulesNotRead tells of a fault of the caller, not of a file.
var errRulesNotRead = errors.New("plan: the brief names a rule file that was not read")

// ruleSet gives the set that the brief asks for: the one read from a file, the
// shipped one of that id, the default one, or nil where it asks for none.
func (b *Brief) ruleSet() (*rules.Set, error) {
	switch {
	case b.RuleSet != nil:
		return b.RuleSet, nil
	case b.Rules == "":
		return rules.Default(), nil
	case b.Rules == noRules:
		return nil, nil
	}
	if set, ok := rules.Shipped(b.Rules); ok {
		return set, nil
	}
	return nil, fmt.Errorf("%w: %s", errRulesNotRead, b.Rules)
}

// RuleSetID is the id of the rule set that the brief asks for, the default one
// where it names none; "" where it asks for none.
func (b *Brief) RuleSetID() string {
	if set, err := b.ruleSet(); err == nil && set != nil {
		return set.ID
	}
	return ""
}

// readRules reads which rule set a brief asks for.
func (b *Brief) readRules(f fields) {
	b.Rules = f.text("rules")
	if b.Rules == "" || b.Rules == noRules || isRuleFile(b.Rules) {
		return
	}
	if _, ok := rules.Shipped(b.Rules); !ok {
		known := append(rules.ShippedIDs(), noRules)
		f.bad(f.get("rules"), "there is no rule set %s (a file of one's own ends in .yaml)%s", quote(b.Rules), didYouMean(b.Rules, known))
		b.Rules = ""
	}
}
