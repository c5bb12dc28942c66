package plan

import (
	"fmt"
	"math"
	"strings"

	"moiety/geom"
)

// checkOnWalls checks that doors, openings, windows and wall marks lie on
// walls, and moves those that lie a little beside theirs.
func (s *survey) checkOnWalls() {
	walls := facesOf(s.prints, len(s.levelIDs))
	h := s.house
	for i := range h.Doors {
		d := &h.Doors[i]
		word := "door"
		if d.Opening {
			word = "opening"
		}
		s.putOnWall(walls, s.nodes.doors[i], word, d.ID, d.Level, &d.Line)
	}
	for i := range h.Windows {
		w := &h.Windows[i]
		s.putOnWall(walls, s.nodes.windows[i], "window", w.ID, w.Level, &w.Line)
	}
	for i, m := range h.Walls {
		s.checkMark(walls, s.nodes.walls[i], m)
	}
}

func (s *survey) putOnWall(walls *faces, n *node, word, id string, level int, line *geom.Segment) {
	if level < 0 || line.A == line.B {
		return
	}
	where := walls.find(level, *line)
	label, place := quoteUnlessPlain(id), n.get("geometry").place()
	switch {
	case where.lies():
		if where.past > pastWall {
			s.warn(id, "%s: the %s runs %s past the end of its wall [%s]", label, word, s.length(where.past), place)
		}
	case where.nearly():
		moved := geom.Segment{A: line.Beside(0, where.shift), B: line.Beside(line.Length(), where.shift)}
		s.warn(id, "%s: the %s lies %s off its wall; moved by %s onto it [%s]",
			label, word, s.length(where.beside), s.length(math.Abs(where.shift)), place)
		*line = moved
	case !s.doubtful(line.Bounds(), level):
		sc := s.scope
		sc.about = id
		sc.bad(n.get("geometry").get("coordinates"), "the %s lies on no wall of level %s: %s",
			word, quoteUnlessPlain(s.levelIDs[level]), s.offWallHint(walls, level, *line))
	}
}

// offWallHint says what is nearest to a line that lies on no wall of its level.
func (s *survey) offWallHint(walls *faces, level int, line geom.Segment) string {
	var elsewhere []string
	for other := range s.levelIDs {
		if other != level && walls.find(other, line).lies() {
			elsewhere = append(elsewhere, quoteUnlessPlain(s.levelIDs[other]))
		}
	}
	if len(elsewhere) > 0 {
		return "there is one on level " + strings.Join(elsewhere, " and on level ")
	}
	nearest, of := math.Inf(1), ""
	for _, f := range walls.beside(level, line, lookAround) {
		if off := math.Min(math.Abs(f.off), math.Abs(f.offAtTo)); off < nearest {
			nearest, of = off, f.of
		}
	}
	if of == "" {
		return fmt.Sprintf("no edge of a space runs along it within %s", s.length(lookAround))
	}
	return fmt.Sprintf("the nearest edge of a space along it is that of %s, %s away; up to %s beside the wall is mended",
		quoteUnlessPlain(of), s.length(nearest), s.length(farthestOffWall))
}

// checkMark warns of a mark that runs along no wall, since it marks nothing.
func (s *survey) checkMark(walls *faces, n *node, m WallMark) {
	if m.Level < 0 {
		return
	}
	var along onWall
	for i := 1; i < len(m.Line); i++ {
		leg := walls.find(m.Level, geom.Segment{A: m.Line[i-1], B: m.Line[i]})
		along.on += leg.on + leg.off
		along.none += leg.none
	}
	if along.length() > 0 && !along.lies() {
		s.warn(m.ID, "%s: runs along no wall of level %s for more than half of its length [%s]",
			quoteUnlessPlain(m.ID), quoteUnlessPlain(s.levelIDs[m.Level]), n.get("geometry").place())
	}
}

// warnGuessed tells of heights that were not surveyed.
func (s *survey) warnGuessed() {
	for _, i := range s.guessed {
		sp := s.house.Spaces[i]
		s.warn(sp.ID, "%s: the height of the garage was not surveyed; taken as %s [%s]",
			quoteUnlessPlain(sp.ID), s.length(sp.Height), s.nodes.spaces[i].place())
	}
}

// warnReversed tells of all rings that were turned in one warning: programs
// that draw clockwise do so everywhere.
func (s *survey) warnReversed() {
	switch n := len(s.reversed); {
	case n == 0:
	case n == 1:
		c := s.reversed[0]
		id := c.parent.parent.get("id").text
		s.warn(id, "%s: a ring was wound the wrong way round; turned [%s]", quoteUnlessPlain(id), c.place())
	default:
		var ids []string
		for _, c := range s.reversed {
			ids = append(ids, quoteUnlessPlain(c.parent.parent.get("id").text))
		}
		s.warn("", "rings were wound the wrong way round and turned: %s [features]", strings.Join(ids, ", "))
	}
}
