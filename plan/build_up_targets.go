package plan

import (
	"fmt"
	"strings"

	"moiety/plan/assembly"
	"moiety/plan/rules"
)

// What is asked of the separation where neither rule set nor brief says. The
// rule sets that were read give sound figures for Canada alone; these stand in
// for the others, on the cautious side.
const (
	defaultFire  = 60 // minutes; IRC R302.3 as us-irc-2021 has it
	defaultSTC   = 50 // NBC 9.11.1.1.(1): between dwelling units, where flanking is taken care of
	secondarySTC = 43 // NBC 9.11.1.1.(2): a house with a secondary suite
	defaultIIC   = 45 // IRC Appendix on sound transmission, from memory; the NBC asks nothing
)

// targets are what the separation of a scheme must reach under a rule set, nil
// for none, and its brief.
func (s *Scheme) targets(set *rules.Set) Targets {
	t := Targets{}
	var said []string
	t.FireMinutes, said = s.fireTarget(set)
	if b := s.Brief.Separation.FireMinutes; b > 0 {
		if b > t.FireMinutes {
			t.FireMinutes = b
			said = []string{fmt.Sprintf("fire %d min: the brief", b)}
		} else if b < t.FireMinutes {
			said = append(said, fmt.Sprintf("the brief's %d min ask less", b))
		}
	}
	t.STC = defaultSTC
	stc := fmt.Sprintf("STC %d: taken cautiously, as NBC 9.11.1.1.(1) has it", defaultSTC)
	if set != nil && set.ID == secondarySound && s.Brief.Conditions.IsSecondary() {
		t.STC, stc = secondarySTC, fmt.Sprintf("STC %d: NBC 9.11.1.1.(2), a house with a secondary suite", secondarySTC)
	}
	if b := s.Brief.Separation.STC; b > 0 {
		t.STC, stc = b, fmt.Sprintf("STC %d: the brief", b)
	}
	t.IIC = defaultIIC
	iic := fmt.Sprintf("IIC %d of floors: taken cautiously, from memory", defaultIIC)
	if b := s.Brief.Separation.IIC; b > 0 {
		t.IIC, iic = b, fmt.Sprintf("IIC %d of floors: the brief", b)
	}
	said = append(said, stc, iic)
	if family(set) == "uk" {
		said = append(said, englandSound)
	}
	t.From = strings.Join(said, "; ")
	return t
}

// englandSound says what England asks of sound, which is measured in the house
// and follows from no laboratory's STC: from memory, the document's table was
// not read.
const englandSound = "England asks DnT,w + Ctr of at least 43 dB and L'nT,w of at most 64 dB of a conversion's walls and floors, measured in the house " +
	"(Approved Document E Table 0.1a, from memory): have it tested"

// secondarySound is the shipped set whose code has a lower sound figure for a
// secondary suite.
const secondarySound = "ca-nbc-2020"

// fireTarget is the fire rating that a rule set asks of the separation.
func (s *Scheme) fireTarget(set *rules.Set) (minutes int, said []string) {
	if set == nil {
		return defaultFire, []string{fmt.Sprintf("fire %d min: taken cautiously, no rule set is applied", defaultFire)}
	}
	c := &checking{s: s, b: s.Building, set: set, Conditions: s.Brief.Conditions}
	id, _ := c.separationRule()
	if id == "separation-suite-lining" {
		id = "separation-rating" // a lining without a rating would do; the rating is the cautious answer
	}
	if f, ok := set.Get(id); ok {
		minutes = int(f.Value())
		source := f.Clause
		if f.Status == rules.Memory {
			source += ", from memory"
		}
		said = []string{fmt.Sprintf("fire %d min: %s %s", minutes, set.ID, source)}
	}
	if minutes == 0 {
		return defaultFire, []string{fmt.Sprintf("fire %d min: taken cautiously, the rule set says nothing", defaultFire)}
	}
	return minutes, said
}

// separationBuilt compares the lowest fire rating of the build-ups chosen for
// the walls or the floors with a rule's; false where none was chosen, or the
// rule asks for a lining and no rating.
func (c *checking) separationBuilt(rule rules.ID, subject string, a about) bool {
	kind := assembly.Wall
	if subject == "floors" {
		kind = assembly.Floor
	}
	lowest, tags, estimated := 0, []string{}, false
	for i := range c.s.BuildUps {
		u := &c.s.BuildUps[i]
		if u.Assembly.Kind != kind {
			continue
		}
		fire := u.Assembly.FireFor(u.Bearing)
		if len(tags) == 0 || fire < lowest {
			lowest = fire
		}
		tags, estimated = append(tags, u.Tag), estimated || u.Assembly.FireEstimated
	}
	if len(tags) == 0 || rule == "separation-suite-lining" {
		return false
	}
	a.note = joinNotes(a.note, "if built as "+strings.Join(tags, ", ")+" in build-ups.csv")
	if estimated {
		a.note = joinNotes(a.note, "in part an estimate from published rows: a tested assembly has to be named")
	}
	a.cure = "a listed assembly, or a designer's rating, for what no published row covers"
	c.measured(rule, float64(lowest), a)
	return true
}
