package plan

import "strings"

// readHouse reads the head of the survey: name, unit, levels, ground.
func (s *survey) readHouse(n *node) {
	f, ok := s.object(n, "the house", "name", "length_unit", "north", "levels", "grade")
	if !ok {
		return
	}
	// The unit comes first: every length below is in it.
	switch LengthUnit(f.word("length_unit", []string{string(Metres), string(Feet)})) {
	case Feet:
		s.unit, s.metre, s.house.Unit = string(Feet), 1/Feet.PerMetre(), Feet
		f.scope = s.scope
	}
	s.house.Name = f.text("name")
	s.house.North, _ = f.number("north", northLimits)
	s.readLevels(f)
	if grade, ok := f.number("grade", coordinateLimits); ok {
		s.house.Grade, s.house.GradeSaid = grade, true
		return
	}
	for _, l := range s.house.Levels {
		if l.Outdoor {
			s.house.Grade, s.house.GradeSaid = l.Floor, true
			return
		}
	}
}

func (s *survey) readLevels(house fields) {
	levels := house.get("levels")
	switch {
	case levels == nil:
		house.missing("levels", ", a list with one entry per floor level")
		return
	case levels.kind != listNode || len(levels.items) == 0:
		house.bad(levels, "levels is a list of one level or more, not %s", levels.shown())
		return
	}
	for _, item := range levels.items {
		s.readLevel(item)
	}
}

func (s *survey) readLevel(n *node) {
	sc := s.scope
	if id := n.get("id"); id != nil && id.kind == textNode {
		sc.about = "level " + strings.TrimSpace(id.text)
	}
	f, ok := sc.object(n, "a level", "id", "name", "floor", "height", "outdoor")
	if !ok {
		return
	}
	l := Level{ID: f.text("id"), Name: f.text("name"), Outdoor: f.truth("outdoor", false)}
	if f.get("id") == nil {
		f.missing("id", ", a short text that the features name it by")
	}
	for _, other := range s.levelIDs {
		if l.ID != "" && l.ID == other {
			f.bad(f.get("id"), "two levels have the id %s", quote(l.ID))
			return
		}
	}
	if l.Name == "" {
		l.Name = l.ID
	}
	if f.get("floor") == nil {
		f.missing("floor", ", the elevation of its finished floor")
	}
	floor, floorSaid := f.number("floor", coordinateLimits)
	l.Floor = floor
	l.Height, _ = f.number("height", heightLimits)
	switch {
	case l.Outdoor:
		l.Height = 0
	case f.get("height") == nil && (f.get("outdoor") == nil || f.get("outdoor").kind == boolNode):
		f.missing("height", `, from floor to ceiling (only a level with "outdoor": true has none)`)
	}
	if l.ID != "" {
		s.noFloor[len(s.levelIDs)] = !floorSaid
		s.levelIDs = append(s.levelIDs, l.ID)
		s.house.Levels = append(s.house.Levels, l)
	}
}

// level finds the level that a key names, -1 where it does not exist.
func (s *survey) level(f fields, key string) int {
	id := f.text(key)
	if id == "" {
		if f.get(key) == nil {
			f.missing(key, ", the id of a level")
		}
		return -1
	}
	for i, known := range s.levelIDs {
		if id == known {
			return i
		}
	}
	if len(s.levelIDs) == 0 {
		return -1 // reported once: the house has no levels
	}
	f.bad(f.get(key), "there is no level %s%s", quote(id), didYouMean(id, s.levelIDs))
	return -1
}
