package plan

import (
	"maps"
	"slices"

	"moiety/geom"
)

// useWords lists the uses of a space, sorted.
var useWords = func() []string {
	var words []string
	for _, u := range slices.Sorted(maps.Keys(traits)) {
		words = append(words, string(u))
	}
	return words
}()

// footprint is the ground plan of a space or flight, for the checks between
// features; of a polygon that breaks a rule too, so that its doors still find
// their wall.
type footprint struct {
	id            string
	n             *node
	level, to     int // to: of a flight's head; otherwise level
	region        geom.Region
	sound, flight bool
	public        bool
	floor, height float64
	space         int // its number among the house's spaces; no flight's
}

func (s *survey) readSpace(f feature) {
	sp := Space{ID: f.id, Name: f.text("name"), Level: f.level}
	sp.Use = Use(f.word("use", useWords))
	if f.get("use") == nil {
		f.missing("use", ", what it is for")
	}
	for _, n := range f.words("also", false) {
		u := Use(f.knownWord(n, "use", n.text, useWords))
		switch {
		case u == "":
		case u == sp.Use || slices.Contains(sp.Also, u):
			s.warn(f.id, "%s: also repeats the use %s; left out once [%s]", quoteUnlessPlain(f.id), u, n.place())
		default:
			sp.Also = append(sp.Also, u)
		}
	}
	if sp.Name == "" {
		sp.Name = f.id
	}
	floor, floorSaid := f.number("floor", coordinateLimits)
	height, heightSaid := f.number("height", heightLimits)
	if f.level >= 0 {
		l := s.house.Levels[f.level]
		sp.Floor, sp.Height = l.Floor, l.Height
		sp.Outdoor = sp.Use.Outdoor() || (l.Outdoor && sp.Use != Garage)
		if l.Outdoor && sp.Outdoor && sp.Use != "" && !sp.Use.Outdoor() {
			s.warn(f.id, "%s: a %s on the outdoor level %s is taken as open ground; put it on an indoor level if it has walls and a roof [%s]",
				quoteUnlessPlain(f.id), sp.Use, quoteUnlessPlain(l.ID), f.n.place())
		}
	}
	if floorSaid {
		sp.Floor = floor
	}
	switch {
	case sp.Outdoor:
		sp.Height = 0
	case heightSaid:
		sp.Height = height
	case f.level >= 0 && s.house.Levels[f.level].Outdoor:
		sp.Height = garageHeight
		s.guessed = append(s.guessed, len(s.house.Spaces))
	}
	t := traits[sp.Use]
	sp.Heated = f.truth("heated", !sp.Outdoor && !t.unheated)
	sp.Finished = f.truth("finished", !sp.Outdoor && !t.rough)
	sp.Divisible = f.truth("divisible", t.divisible)
	s.readRoom(f, footprint{to: f.level, public: sp.Use.Public(), floor: sp.Floor, height: sp.Height, space: len(s.house.Spaces)})
	if f.shape.region != nil {
		sp.Region = *f.shape.region
	}
	s.house.Spaces = append(s.house.Spaces, sp)
	s.nodes.spaces = append(s.nodes.spaces, f.n)
}

// readRoom keeps the footprint of a space or flight.
func (s *survey) readRoom(f feature, p footprint) {
	if f.shape.region == nil || len(f.shape.region.Outer) < 3 {
		s.blurred = true
		return
	}
	if f.level < 0 || !f.shape.sound {
		s.doubts = append(s.doubts, doubt{f.shape.region.Bounds(), f.level, p.to})
	}
	if f.level < 0 {
		return
	}
	p.id, p.n, p.level = f.id, f.n, f.level
	p.region, p.sound = *f.shape.region, f.shape.sound
	if p.sound && p.region.AreaM2() <= mostOverlap {
		f.bad(f.shape.n, "%s has an area of %s, less than one can stand in", f.what, f.area(p.region.AreaM2()))
		p.sound, s.blurred = false, true
	}
	s.prints = append(s.prints, p)
}
