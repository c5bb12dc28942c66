package plan

import (
	"cmp"
	"maps"
	"slices"
	"strings"
)

// Check compares a brief with the house it is for: every id and use that it
// names must be there, and no space may be kept by both units. The error is a
// *Problems with all of them.
func (b *Brief) Check(h *House) error {
	c := briefCheck{brief: b, house: h, problems: &Problems{File: cmp.Or(b.source.file, "brief")}}
	for _, word := range b.Share {
		c.share(word)
	}
	for _, word := range b.Leave {
		c.leave(word)
	}
	var kept [2]map[string]string // id of a space: the word that keeps it
	for i, u := range b.Units {
		kept[i] = map[string]string{}
		for _, word := range u.Keep {
			for _, id := range c.spaces(u.ID, "keep", word) {
				kept[i][id] = word
			}
		}
		for _, word := range u.Avoid {
			c.spaces(u.ID, "avoid", word)
		}
		if u.EntryFrom != "" {
			c.entryFrom(u.ID, u.EntryFrom)
		}
	}
	for _, id := range slices.Sorted(maps.Keys(kept[1])) {
		if _, both := kept[0][id]; both {
			c.bad(b.Units[1].ID, "keep", kept[1][id], "%s is kept by both units; it can be only one's", quoteUnlessPlain(id))
		}
	}
	c.separation()
	return c.problems.err()
}

type briefCheck struct {
	brief    *Brief
	house    *House
	problems *Problems
}

func (c briefCheck) bad(unit, key, word, format string, args ...any) {
	about := ""
	if unit != "" {
		about = "unit " + unit
	}
	c.problems.add(c.brief.source.words[briefWord{unit, key, word}], about, key+": "+format, args...)
}

// rooms lists the ids of spaces and flights that a word means: the one of that
// id, otherwise all spaces of that use.
func (h *House) rooms(word string) []string {
	var byUse []string
	for _, s := range h.Spaces {
		if s.ID == word {
			return []string{s.ID}
		}
		if string(s.Use) == word {
			byUse = append(byUse, s.ID)
		}
	}
	for _, s := range h.Stairs {
		if s.ID == word {
			return []string{s.ID}
		}
	}
	return byUse
}

// ids lists the ids of all features, in the order of the survey's kinds.
func (h *House) ids() []string {
	var ids []string
	for _, x := range h.Spaces {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Stairs {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Doors {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Windows {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Walls {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Fixtures {
		ids = append(ids, x.ID)
	}
	for _, x := range h.Lots {
		ids = append(ids, x.ID)
	}
	return ids
}

// roomWords lists what keep and avoid may say: ids of spaces and flights, and
// the uses that the house has.
func (h *House) roomWords() []string {
	words := h.ids()[:len(h.Spaces)+len(h.Stairs)]
	for _, s := range h.Spaces {
		if !slices.Contains(words, string(s.Use)) {
			words = append(words, string(s.Use))
		}
	}
	return words
}

// spaces checks a word of keep or avoid, and gives what it means.
func (c briefCheck) spaces(unit, key, word string) []string {
	rooms := c.house.rooms(word)
	if len(rooms) > 0 {
		for _, id := range rooms {
			if key == "keep" && c.public(id) {
				c.bad(unit, key, word, "%s is the public way, which is nobody's", quoteUnlessPlain(id))
			}
		}
		return rooms
	}
	switch {
	case Use(word).Known():
		c.bad(unit, key, word, "the house has no %s", word)
	case slices.Contains(c.house.ids(), word):
		c.bad(unit, key, word, "%s is neither a space nor a stair", quoteUnlessPlain(word))
	default:
		c.bad(unit, key, word, "the house has no space %s%s", quote(word), didYouMean(word, c.house.roomWords()))
	}
	return nil
}

func (c briefCheck) public(id string) bool {
	return slices.ContainsFunc(c.house.Spaces, func(s Space) bool { return s.ID == id && s.Use.Public() })
}

// entryFrom checks that a word means an outdoor space.
func (c briefCheck) entryFrom(unit, word string) {
	var outdoors []string
	for _, s := range c.house.Spaces {
		if s.Outdoor {
			outdoors = append(outdoors, s.ID)
		}
	}
	rooms := c.house.rooms(word)
	switch {
	case len(outdoors) == 0:
		c.bad(unit, "entry_from", word, "the survey has no outdoor space that an entry could open to")
	case len(rooms) == 0 && Use(word).Known():
		c.bad(unit, "entry_from", word, "the house has no %s; outdoors it has %s", word, strings.Join(outdoors, ", "))
	case len(rooms) == 0:
		c.bad(unit, "entry_from", word, "there is no outdoor space %s%s", quote(word), didYouMean(word, outdoors))
	case !slices.ContainsFunc(rooms, func(id string) bool { return slices.Contains(outdoors, id) }):
		c.bad(unit, "entry_from", word, "%s is indoors; outdoors the house has %s", quoteUnlessPlain(word), strings.Join(outdoors, ", "))
	}
}

// share checks a word of share: an id, or a use of spaces or fixtures. A use
// that the house does not have is accepted all the same: nothing of it is shared.
func (c briefCheck) share(word string) {
	if Use(word).Known() || slices.Contains(fixtureWords, word) || slices.Contains(c.house.ids(), word) {
		return
	}
	known := slices.Concat(c.house.ids(), useWords, fixtureWords)
	c.bad("", "share", word, "%s is neither an id of the survey nor a use of spaces or fixtures%s", quote(word), didYouMean(word, known))
}

// leave checks a word of leave: the id of a feature.
func (c briefCheck) leave(word string) {
	ids := c.house.ids()
	switch {
	case slices.Contains(ids, word):
	case len(c.house.rooms(word)) > 0:
		c.bad("", "leave", word, "%s is a use; name the features by their ids: %s", quoteUnlessPlain(word), strings.Join(c.house.rooms(word), ", "))
	default:
		c.bad("", "leave", word, "the survey has no feature %s%s", quote(word), didYouMean(word, ids))
	}
}
