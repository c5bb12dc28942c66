package plan

import (
	"fmt"
	"slices"
)

// droppedDemand is a demand with the brief as it is without it.
type droppedDemand struct {
	wish  Wish
	brief *Brief
}

// dropped lists every demand of the brief, unit by unit, then what no work may
// touch, then what is not accepted as shared. Of several bedrooms or stalls the
// last is a demand. A demand that asks for nothing in this house is left out.
func (m *model) dropped() []droppedDemand {
	var out []droppedDemand
	drop := func(unit, key, word, demand string, change func(*Brief)) {
		b := *m.brief
		b.Schemes = 1
		change(&b)
		out = append(out, droppedDemand{Wish{Unit: unit, Key: key, Word: word, Demand: demand}, &b})
	}
	for i, u := range m.brief.Units {
		of := func(key, word, demand string, change func(*UnitBrief)) {
			drop(u.ID, key, word, "unit "+u.ID+demand, func(b *Brief) { change(&b.Units[i]) })
		}
		if n := u.Bedrooms.Min; n > 0 {
			of("bedrooms", "", "'s "+lastOf(n, "bedroom"), func(u *UnitBrief) { u.Bedrooms.Min-- })
		}
		if u.AreaMin > 0 {
			of("area", "", fmt.Sprintf("'s least area of %s", areaIn(m.b.House.Unit, u.AreaMin)), func(u *UnitBrief) { u.AreaMin = 0 })
		}
		for _, word := range u.Keep {
			of("keep", word, " keeping "+word, func(u *UnitBrief) { u.Keep = butFor(u.Keep, word) })
		}
		for _, word := range u.Avoid {
			of("avoid", word, " avoiding "+word, func(u *UnitBrief) { u.Avoid = butFor(u.Avoid, word) })
		}
		if u.EntryFrom != "" {
			of("entry_from", u.EntryFrom, "'s entry from "+u.EntryFrom, func(u *UnitBrief) { u.EntryFrom = "" })
		}
		if !m.b.outdoorsSurveyed() {
			continue
		}
		if n := u.Parking.Min; n > 0 {
			of("parking", "", "'s "+lastOf(n, "parking space"), func(u *UnitBrief) { u.Parking.Min-- })
		}
		if u.OutdoorMin > 0 {
			of("outdoor", "", fmt.Sprintf("'s %s of yard, patio, deck, balcony or porch", areaIn(m.b.House.Unit, u.OutdoorMin)), func(u *UnitBrief) { u.OutdoorMin = 0 })
		}
	}
	if m.problem.Balance.PerArea > 0 {
		share := float64(m.problem.Balance.Share) / 10
		drop("", "share", "", fmt.Sprintf("the wanted shares of the area, %s %% and %s %%", trimmed(share), trimmed(100-share)), func(b *Brief) {
			b.Units[0].AreaShare, b.Units[1].AreaShare = 0, 0
		})
	}
	for _, id := range m.brief.Leave {
		drop("", "leave", id, "leaving "+id+" untouched", func(b *Brief) { b.Leave = butFor(b.Leave, id) })
	}
	for _, word := range m.unshared() {
		drop("", "share", word, "not sharing "+m.spoken(word), func(b *Brief) { b.Share = append(slices.Clone(b.Share), word) })
	}
	return out
}

// lastOf names the last of several things asked for.
func lastOf(n int, noun string) string {
	if n == 1 {
		return noun
	}
	return ordinal(n) + " " + noun
}

// ordinal spells a small number's place.
func ordinal(n int) string {
	small := []string{"", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth", "ninth"}
	if n < len(small) {
		return small[n]
	}
	suffix := "th"
	if n%100 < 11 || n%100 > 13 {
		switch n % 10 {
		case 1:
			suffix = "st"
		case 2:
			suffix = "nd"
		case 3:
			suffix = "rd"
		}
	}
	return fmt.Sprintf("%d%s", n, suffix)
}

// butFor gives the words but for one.
func butFor(words []string, word string) []string {
	return slices.DeleteFunc(slices.Clone(words), func(w string) bool { return w == word })
}

// spoken says a word of share as a sentence does: a flight by its name.
func (m *model) spoken(word string) string {
	if c := m.b.CellNamed(word); c >= 0 && m.b.Cells[c].Flight {
		return m.b.Cells[c].Name
	}
	switch Use(word) {
	case Parking, Storage:
		return word
	case Mechanical, Laundry:
		return "the " + word + " room"
	case Unfinished:
		return "unfinished space"
	}
	return "the " + words(word)
}

// unshared lists what could stay shared and is not accepted as such: uses of
// spaces, flights by their ids, and fixtures.
func (m *model) unshared() []string {
	var out []string
	add := func(word string) {
		if !slices.Contains(out, word) && !slices.Contains(m.brief.Share, word) {
			out = append(out, word)
		}
	}
	for c := range m.b.Cells {
		cell := &m.b.Cells[c]
		switch {
		case m.place[c] < 0 || cell.Public || !shareable(cell) || m.accepted(c):
		case cell.Flight:
			add(cell.Of)
		default:
			add(string(cell.Use))
		}
	}
	for f := range functionCount {
		if slices.Contains(m.waived, f) || slices.Contains(m.notSurveyed, f) {
			continue
		}
		for _, fix := range m.b.House.Fixtures {
			if slices.Contains(functions[f].fixtures, fix.Use) {
				add(fix.Use)
			}
		}
	}
	return out
}
