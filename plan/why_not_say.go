package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/plan/partition"
)

// hangTogether is what stands behind all demands and can be dropped from none.
const hangTogether = "the rooms of a unit hang together, and nobody passes through a bedroom, bathroom, closet, laundry, furnace room or garage to reach others"

// ownEntry is what every unit needs to come in.
const ownEntry = "an entry door of its own from the public way, and rooms that hang together without passing through bedrooms, bathrooms or closets"

// saying says the demands that conflict, each in a sentence: first what the
// brief asks, then what every unit must have. What the house has of a thing is
// said once.
func (m *model) saying(conflict []int, byPlace bool) []string {
	if len(conflict) == 0 {
		return []string{"the house cannot be parted into two units that are each reached from the public way and hang together, whatever is asked of them"}
	}
	var asked, musts []string
	var needing [functionCount][]int // units
	var entering []int
	demands := m.demands()
	// What the house has is told as if the other demands to leave things were not there.
	brief := *m.brief
	brief.Leave = nil
	for _, i := range conflict {
		if id := demands[i].leave; id != "" {
			brief.Leave = append(brief.Leave, id)
		}
	}
	house := m
	if len(brief.Leave) < len(m.brief.Leave) {
		house = m.under(&brief, nil)
	}
	for _, i := range conflict {
		d := &demands[i]
		switch {
		case d.entry:
			entering = append(entering, d.unit)
		case d.function >= 0 && d.must:
			needing[d.function] = append(needing[d.function], d.unit)
		case d.function >= 0:
			asks := fmt.Sprintf("unit %s asks for %s", m.brief.Units[d.unit].ID, needed(d.function, m.problem.Units[d.unit].Need[d.function]))
			if needing[d.function] == nil {
				asks += ": " + house.needFacts(d.function)
			} else {
				asks += " of the same"
			}
			needing[d.function] = append(needing[d.function], d.unit)
			asked = append(asked, asks)
		default:
			asked = append(asked, d.text)
		}
	}
	who := func(units []int) string {
		if len(units) > 1 {
			return "each unit needs "
		}
		return "unit " + m.brief.Units[units[0]].ID + " needs "
	}
	for f, units := range needing {
		if f := Function(f); len(units) > 0 && f != HasBedroom && f != HasParking {
			musts = append(musts, who(units)+needed(f, 1)+": "+house.needFacts(f))
		}
	}
	if byPlace {
		musts = append(musts, m.cutOff()...)
	}
	if len(entering) > 0 {
		musts = append(musts, who(entering)+ownEntry)
	} else if byPlace {
		musts = append(musts, hangTogether)
	}
	return append(asked, musts...)
}

// cutOff says of the rooms that are reached through bedrooms, bathrooms, closets
// and the like alone, there or by a new door, what lies before them: whoever is
// to have one cannot get there.
func (m *model) cutOff() []string {
	p := m.problem
	var out []string
	for i, c := range m.cells {
		if c == Outside || p.Cells[i].Outdoor || p.Cells[i].Public || p.Cells[i].Detached {
			continue
		}
		var through []string // ids of spaces
		free := false
		for _, l := range p.Links {
			if l.U != i && l.V != i || !l.Open && l.Door == partition.Impossible {
				continue
			}
			n := l.U + l.V - i
			if m.cells[n] == Outside || p.Cells[n].Outdoor {
				free = free || l.Entry[0] || l.Entry[1]
				continue
			}
			if !p.Cells[n].DeadEnd || l.Ensuite && l.U == n {
				free = true
			} else if of := m.b.Cells[m.cells[n]].Of; !slices.Contains(through, of) {
				through = append(through, of)
			}
		}
		if !free && len(through) > 0 {
			out = append(out, fmt.Sprintf("%s is reached through %s alone", m.nameOfSpace(m.b.Cells[c].Of), m.listedSpaces(through)))
		}
	}
	return out
}

// needed names so many of a function.
func needed(f Function, n int) string {
	switch {
	case f == HasParking:
		return fmt.Sprintf("parking for %d", n)
	case f == HasHeat || f == HasHotWater || f == HasPanel || f == HasLaundry || f == HasStorage:
		return f.String() + " of its own"
	case n > 1:
		return fmt.Sprintf("%d %ss", n, f)
	}
	return "a " + f.String()
}

// needFacts says which rooms of the house have a function or could.
func (m *model) needFacts(f Function) string {
	var have, could []string // ids of spaces
	for c := range m.b.Cells {
		if m.place[c] < 0 || f == HasBedroom && m.noLegalBedroom(c) {
			continue
		}
		of := m.b.Cells[c].Of
		if m.b.has(c, f) && !slices.Contains(have, of) {
			have = append(have, of)
		} else if _, ok := m.hosting(c, f); (ok || slices.Contains(m.lent[c], f)) && !slices.Contains(could, of) {
			could = append(could, of)
		}
	}
	could = slices.DeleteFunc(could, func(of string) bool { return slices.Contains(have, of) })
	more := "could take one"
	switch f {
	case HasParking:
		more = "could take a car"
	case HasHeat, HasHotWater, HasPanel, HasLaundry, HasStorage:
		more = "could take it on"
	case HasBedroom, HasLiving:
		more = "could be made one"
	}
	text := fmt.Sprintf("the house has %s, and %s %s", m.counted(have, "", "none"), m.counted(could, " more", "no other room"), more)
	if f == HasBedroom {
		for _, not := range slices.Concat(m.notBedrooms(), m.noBedrooms(could)) {
			text += "; " + not
		}
	}
	return text
}

// shortened tells the first of several faults of a window, and how many more
// there are.
func shortened(reason string) string {
	faults, rest, _ := strings.Cut(reason, ", and `leave`")
	first, others, more := strings.Cut(faults, "; ")
	if !more {
		return reason
	}
	n := 1 + strings.Count(others, "; ")
	first += fmt.Sprintf("; %d more of its measures fall short", n)
	if rest != "" {
		first += ", and `leave`" + rest
	}
	return first
}

// counted counts spaces and names them.
func (m *model) counted(spaces []string, more, none string) string {
	if len(spaces) == 0 {
		return none
	}
	var names []string
	for _, of := range spaces {
		names = append(names, m.nameOfSpace(of))
	}
	return fmt.Sprintf("%d%s (%s)", len(spaces), more, strings.Join(names, ", "))
}

// nameOfSpace is the surveyed name of a space, divided or not.
func (m *model) nameOfSpace(id string) string {
	b := m.b
	if m.whole != nil {
		b = m.whole.b
	}
	if b.CellNamed(id) < 0 {
		return id
	}
	return b.nameOf(id)
}

// notBedrooms says of the bedrooms of the house that cannot count as such why
// they cannot.
func (m *model) notBedrooms() []string {
	var out []string
	for c := range m.b.Cells {
		cell := &m.b.Cells[c]
		if cell.is(Bedroom) && m.place[c] >= 0 && m.noLegalBedroom(c) {
			out = append(out, fmt.Sprintf("%s cannot count as a bedroom: %s", cell.Name, shortened(m.bedrooms.of(c).reason)))
		}
	}
	return out
}

// noBedrooms says of the rooms that a bedroom could be thought of in, and that
// cannot be one, why they cannot.
func (m *model) noBedrooms(could []string) []string {
	var out []string
	for c := range m.b.Cells {
		cell := &m.b.Cells[c]
		if m.place[c] < 0 || cell.Flight || cell.isPiece() || m.b.has(c, HasBedroom) || slices.Contains(could, cell.Of) ||
			!slices.Contains([]Use{Office, Dining, Living, Family, Unfinished}, cell.Use) {
			continue
		}
		why := "has no place for a bed clear of its doors and windows"
		_, openPlan := m.b.casedOpenings(c)
		switch width := m.b.width(c); {
		case m.left(cell.Of):
			why = "may not be touched"
		case m.b.windows(c) == 0:
			why = "has no window to escape by"
		case openPlan:
			why = "lies open to other rooms"
		case m.noLegalBedroom(c):
			why = "cannot be one: " + shortened(m.bedrooms.of(c).reason)
		case cell.AreaM2 < bedroomMinM2-roomAreaTolerance:
			why = fmt.Sprintf("is too small (%s)", m.area(cell.AreaM2))
		case width < bedroomMinWidth-roomWidthTolerance:
			why = fmt.Sprintf("is too narrow (%.2f m)", width)
		}
		out = append(out, cell.Name+" "+why)
	}
	return out
}

// called says a word of keep or avoid with the name of the space that it means.
func (m *model) called(word string) string {
	if name := m.nameOfSpace(word); name != word && !strings.EqualFold(name, strings.ReplaceAll(word, "-", " ")) {
		return fmt.Sprintf("%s (%s)", word, name)
	}
	return word
}

// entryFromSentence says the demand for an entry from somewhere, with the rooms
// whose doors lead there or could.
func (m *model) entryFromSentence(u UnitBrief, unit int) string {
	var lead, more []string // ids of spaces
	for l := range m.problem.Links {
		link := &m.problem.Links[l]
		if !link.Entry[unit] || m.links[l] < 0 {
			continue
		}
		of := m.b.Cells[m.b.Links[m.links[l]].U].Of
		if link.Open && !slices.Contains(lead, of) {
			lead = append(lead, of)
		} else if !link.Open && !slices.Contains(more, of) {
			more = append(more, of)
		}
	}
	leads, makes := "no room that one may come in by has a door there", ""
	if len(lead) > 0 {
		leads = "a door leads there from " + m.listedSpaces(lead)
	}
	switch {
	case len(more) > 0:
		makes = "one could be made from " + m.listedSpaces(more)
	case len(lead) > 0:
		makes = "no other room that one may come in by could have one"
	default:
		makes = "none could have one"
	}
	return fmt.Sprintf("unit %s asks for an entry from %s: %s, and %s", u.ID, m.called(u.EntryFrom), leads, makes)
}

// listedSpaces names spaces as a sentence does.
func (m *model) listedSpaces(spaces []string) string {
	names := make([]string, len(spaces))
	for i, of := range spaces {
		names[i] = m.nameOfSpace(of)
	}
	if last := len(names) - 1; last > 0 {
		return strings.Join(names[:last], ", ") + " and " + names[last]
	}
	return names[0]
}

// area says an area in the units of the survey.
func (m *model) area(m2 float64) string { return areaIn(m.b.House.Unit, m2) }

// leaveSentence says what it means that no work may touch a feature.
func (m *model) leaveSentence(id string) string {
	text := "no work may touch " + m.called(id)
	if m.b.CellNamed(id) >= 0 || len(m.b.piecesOf(id)) > 0 {
		return text + ": nothing is put in, no new door leads there"
	}
	var between []string
	for _, l := range m.b.Links {
		if l.V == Outside || l.Of != id && !slices.Contains(l.Marks, id) {
			continue
		}
		pair := m.nameOfSpace(m.b.Cells[l.U].Of) + " and " + m.nameOfSpace(m.b.Cells[l.V].Of)
		if !slices.Contains(between, pair) {
			between = append(between, pair)
		}
	}
	if len(between) == 0 {
		return text
	}
	return text + ": it stays as it is between " + strings.Join(between, ", and between ")
}

// indoors is the area that units share out, in square metres.
func (m *model) indoors() float64 {
	sum := int64(0)
	for i := range m.problem.Cells {
		sum += m.problem.Cells[i].Area
	}
	return float64(sum) / areaPerM2
}

// stalls is how many cars the house and its lot park.
func (m *model) stalls() int {
	sum := int64(0)
	for i := range m.problem.Cells {
		sum += m.problem.Cells[i].Amount[stallAmount]
	}
	return int(sum)
}

// ground is the outdoor area that units may be given, in square metres.
func (m *model) ground() float64 {
	sum := 0.0
	for c := range m.b.Cells {
		if m.place[c] >= 0 && m.b.has(c, HasOutdoor) {
			sum += m.b.Cells[c].AreaM2
		}
	}
	return sum
}
