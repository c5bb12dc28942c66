package plan

import (
	"fmt"
	"slices"
	"strings"
)

// needSentence says a demand for a function, with the rooms of the house that
// meet it or could.
func (m *model) needSentence(u UnitBrief, f Function, n int) string {
	var have, could []string // ids of spaces
	for c := range m.b.Cells {
		if m.place[c] < 0 {
			continue
		}
		if f == HasBedroom && m.noLegalBedroom(c) {
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
	what, more := "a "+f.String(), "could take one"
	switch {
	case f == HasParking:
		what, more = fmt.Sprintf("parking for %d", n), "could take a car"
	case f == HasHeat || f == HasHotWater || f == HasPanel || f == HasLaundry || f == HasStorage:
		what, more = f.String()+" of its own", "could take it on"
	case n > 1:
		what = fmt.Sprintf("%d %ss", n, f)
	}
	if f == HasBedroom || f == HasLiving {
		more = "could be made one"
	}
	text := fmt.Sprintf("unit %s asks for %s: the house has %s, and %s %s", u.ID, what, m.counted(have, "", "none"), m.counted(could, " more", "no other room"), more)
	if f == HasBedroom {
		for _, not := range slices.Concat(m.notBedrooms(), m.noBedrooms(could)) {
			text += "; " + not
		}
	}
	return text
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
	if b.cellNamed(id) < 0 {
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
			out = append(out, fmt.Sprintf("%s cannot count as a bedroom: %s", cell.Name, m.bedrooms.of(c).reason))
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
		switch width := m.b.width(c); {
		case m.left(cell.Of):
			why = "may not be touched"
		case m.b.windows(c) == 0:
			why = "has no window to escape by"
		case m.noLegalBedroom(c):
			why = "cannot be one: " + m.bedrooms.of(c).reason
		case cell.AreaM2 < bedroomMinM2-roomAreaTolerance:
			why = fmt.Sprintf("is too small (%.1f m2)", cell.AreaM2)
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

// entryFromSentence says the demand for an entry from somewhere, with how many
// doors there are or could be.
func (m *model) entryFromSentence(u UnitBrief, unit int) string {
	doors, more := 0, 0
	for l := range m.problem.Links {
		switch link := &m.problem.Links[l]; {
		case !link.Entry[unit]:
		case link.Open:
			doors++
		default:
			more++
		}
	}
	var lead, made string
	switch doors {
	case 0:
		lead = "no door leads"
	case 1:
		lead = "1 door leads"
	default:
		lead = fmt.Sprintf("%d doors lead", doors)
	}
	if made = "none"; more > 0 {
		made = fmt.Sprint(more)
	}
	return fmt.Sprintf("unit %s asks for an entry from %s: %s there from a room that one may come in by, and %s more could be made",
		u.ID, m.called(u.EntryFrom), lead, made)
}

// leaveSentence says what it means that no work may touch a feature.
func (m *model) leaveSentence(id string) string {
	text := "no work may touch " + m.called(id)
	if m.b.cellNamed(id) >= 0 || len(m.b.piecesOf(id)) > 0 {
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
