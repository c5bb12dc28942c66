package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan/rules"
)

// bedroomJudge tells which rooms can legally be bedrooms under a rule set, and
// what it takes. It speaks of a house, not of a scheme; what a survey does not
// tell is not held against a room.
type bedroomJudge struct {
	escapeJudge
	prices *Prices
	leave  []string
	known  map[int]bedroomVerdict
	// windowless: the survey shows no window anywhere, so they are not surveyed.
	windowless bool
}

// bedroomVerdict is what is said of one room.
type bedroomVerdict struct {
	legal  bool
	works  []Work  // that make it legal; none where it is as it stands
	reason string  // why it is not one as it stands; "" where it is
	window *Window // a new one among the works; nil none
}

// newBedroomJudge gives nil where no rule set is applied: then any room will do.
func newBedroomJudge(b *Building, brief *Brief, prices *Prices) *bedroomJudge {
	set, err := brief.ruleSet()
	if err != nil || set == nil {
		return nil
	}
	return &bedroomJudge{
		escapeJudge: escapeJudge{b: b, set: set, Conditions: brief.Conditions}, prices: prices, leave: brief.Leave,
		known: map[int]bedroomVerdict{}, windowless: len(b.House.Windows) == 0,
	}
}

// hasWindow tells whether a window of that id lights the cell.
func (b *Building) hasWindow(cell int, id string) bool {
	for i, w := range b.House.Windows {
		if w.ID == id && b.opensOutdoors(i, cell) {
			return true
		}
	}
	return false
}

// of judges a room, whatever its use today.
func (j *bedroomJudge) of(cell int) bedroomVerdict {
	if v, ok := j.known[cell]; ok {
		return v
	}
	v := j.judge(cell)
	j.known[cell] = v
	return v
}

func (j *bedroomJudge) judge(cell int) bedroomVerdict {
	if reason := j.tooSmall(cell); reason != "" {
		return bedroomVerdict{reason: reason}
	}
	if j.windowless || j.waived() || !j.needs(Bedroom) {
		return bedroomVerdict{legal: true}
	}
	openings := j.openings(cell)
	switch {
	case len(openings) == 0:
		v := bedroomVerdict{reason: "it has no window or door to the outside to escape by"}
		v.works, v.window = j.newWindowWorks(cell, nil)
		v.legal = v.window != nil
		return v
	case openings[0].result != NotOK:
		return bedroomVerdict{legal: true}
	}
	v := bedroomVerdict{reason: j.why(openings[0])}
	for _, o := range openings {
		works := j.cureWorks(cell, o)
		if len(works) > 0 && (!v.legal || total(works) < total(v.works)) {
			v.legal, v.works = true, works
		}
	}
	if works, window := j.newWindowWorks(cell, nil); window != nil && (!v.legal || total(works) < total(v.works)) {
		v.legal, v.works, v.window = true, works, window
	}
	if !v.legal && slices.ContainsFunc(openings, func(o escapeOpening) bool { return j.cure(o).how != "" }) {
		v.reason += ", and `leave` keeps the work away that would put it right"
	}
	return v
}

// tooSmall says which of the room's own measures falls short of a limit.
func (j *bedroomJudge) tooSmall(cell int) string {
	room := &j.b.Cells[cell]
	ceiling := rules.ID("ceiling-habitable")
	if _, ok := j.set.Get("ceiling-suite"); ok && j.IsSecondary() {
		ceiling = "ceiling-suite"
	}
	for _, m := range []struct {
		id    rules.ID
		what  string
		value func() float64
	}{
		{ceiling, "its ceiling is", func() float64 { return room.Ceiling - room.Floor }},
		{"room-area", "its area is", func() float64 { return room.AreaM2 }},
		{"bedroom-area", "its area is", func() float64 { return room.AreaM2 }},
		{"room-width", "its width is", func() float64 { return 2 * room.Region.Clearance() }},
		{"bedroom-width", "its width is", func() float64 { return 2 * room.Region.Clearance() }},
	} {
		f, ok := j.set.Get(m.id)
		if !ok || f.Advice || f.Quantity == rules.Length && strings.HasSuffix(string(m.id), "width") && room.Region.HoldsDisc(f.Value()/2) {
			continue
		}
		v := m.value()
		if f.Meets(v) || m.id == ceiling && mayBeSloped(j.b, j.set, cell, v) {
			continue
		}
		return fmt.Sprintf("%s %s, and the rule set asks for %s (%s)", m.what, f.Provided(v), f.Required(), f.Clause)
	}
	return ""
}

// why says what is wrong with the best opening of a room.
func (j *bedroomJudge) why(o escapeOpening) string {
	var faults []string
	for _, m := range o.measures {
		if m.result == NotOK && !m.figure.Advice {
			faults = append(faults, fmt.Sprintf("%s %s, %s asked (%s)", m.figure.About, m.provided, m.figure.Required(), m.figure.Clause))
		}
	}
	return fmt.Sprintf("window %s will not do to escape by: %s", o.id, strings.Join(faults, "; "))
}

// cureWorks gives the works that make a window of a room one to escape by, none
// where nothing does or the brief keeps the work away.
func (j *bedroomJudge) cureWorks(cell int, o escapeOpening) []Work {
	how := j.cure(o)
	if how.how == "" || slices.Contains(j.leave, o.id) || slices.Contains(j.leave, j.b.Cells[cell].Of) {
		return nil
	}
	w := &j.b.House.Windows[o.window]
	at := Work{Level: j.b.House.Levels[w.Level].ID, Spaces: []string{j.b.Cells[cell].ID}, Of: o.id, Count: 1}
	var works []Work
	if how.enlarge || how.replace {
		one := at
		one.Kind, one.Note = "enlarge_window", how.inWords()
		switch price := j.prices.EnlargeWindow; {
		case how.replace:
			one.Cost = cents(price.Replace)
		case how.found:
			one.Cost = cents(price.Foundation)
		default:
			one.Cost = cents(price.Each)
		}
		works = append(works, one)
	}
	if how.well {
		one := at
		one.Kind, one.Cost = "window_well", cents(j.prices.cost("window_well", 0, 0, 1))
		one.Note = "of the size asked for, drained"
		works = append(works, one)
	}
	return works
}

// bedroomNote says of a room that it is not counted as a bedroom, and what
// would make it one; "" of a room that is one as the scheme leaves it.
func (m *model) bedroomNote(out *Scheme, c int) string {
	if m.bedrooms == nil {
		return ""
	}
	v := m.bedrooms.of(c)
	if v.reason == "" || out.takesOn(c, "enlarge_window") || out.takesOn(c, "new_window") || out.takesOn(c, "window_well") {
		return ""
	}
	note := fmt.Sprintf("%s is not counted as a bedroom: %s", m.b.Cells[c].ID, v.reason)
	if v.legal {
		var kinds []string
		for _, w := range v.works {
			kinds = append(kinds, fmt.Sprintf("%s of %s", words(w.Kind), w.Of))
		}
		note += fmt.Sprintf("; %s would make it one for %s", strings.Join(kinds, " and "), thousands(total(v.works)))
	}
	return note
}

// noLegalBedroom tells whether a room cannot legally be a bedroom, whatever is
// done to its windows.
func (m *model) noLegalBedroom(c int) bool { return m.bedrooms != nil && !m.bedrooms.of(c).legal }
