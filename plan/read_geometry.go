package plan

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"

	"github.com/paulmach/orb"

	"moiety/geom"
)

// shape is the geometry of a feature on the grid, nothing set where it cannot
// be read; sound tells that it breaks no rule.
type shape struct {
	point  *geom.Pt
	line   []geom.Pt
	region *geom.Region
	sound  bool
	n      *node // of its coordinates
}

var geometryTypes = []string{"Point", "LineString", "Polygon", "MultiPoint", "MultiLineString", "MultiPolygon", "GeometryCollection"}

// readGeometry reads the geometry of a feature. What GeoJSON libraries take
// without a word (unclosed rings, null, a third coordinate, a key written in
// another case, the last of two equal keys) is looked for first; then the
// coordinates are decoded.
func (s *survey) readGeometry(f fields, k kind) (out shape) {
	n := f.get("geometry")
	wanted := strings.Join(k.geometries, " or a ")
	if n == nil {
		f.missing("geometry", fmt.Sprintf(": %s is a %s", k.name, wanted))
		return out
	}
	if n.kind == nullNode {
		f.bad(n, "geometry is null: %s is a %s", k.name, wanted)
		return out
	}
	g, ok := f.object(n, "a geometry", "type", "coordinates")
	if !ok {
		return out
	}
	kind := g.word("type", geometryTypes)
	coordinates := g.get("coordinates")
	switch {
	case g.get("type") == nil:
		g.missing("type", fmt.Sprintf(": %s is a %s", k.name, wanted))
	case kind == "":
	case !slices.Contains(k.geometries, kind):
		g.bad(g.get("type"), "%s is a %s, not a %s", k.name, wanted, kind)
	case coordinates == nil:
		g.missing("coordinates", "")
	case g.coordinates(coordinates, kind):
		return s.decode(g, kind)
	}
	return out
}

// depthOf is how deep the positions of a geometry type lie in its coordinates.
var depthOf = map[string]int{"Point": 0, "LineString": 1, "Polygon": 2}

// coordinates checks that positions of two finite numbers lie in lists as
// deep as the type wants them.
func (s scope) coordinates(n *node, kind string) bool {
	if depth := depthOfLists(n); depth > 0 && depth != depthOf[kind]+1 {
		s.bad(n, "the coordinates of a %s are nested as %s; these are nested %d deep, not %d",
			kind, [...]string{"[x, y]", "[[x, y], …]", "[[[x, y], …]]"}[depthOf[kind]], depth, depthOf[kind]+1)
		return false
	}
	count := 0
	ok := s.positions(n, depthOf[kind], &count)
	if count > maxCorners {
		s.bad(n, "the geometry has %d corners, more than %d", count, maxCorners)
		return false
	}
	return ok
}

// depthOfLists counts how deep lists are nested down to a number, by the first
// of each; 0 where they lead to none.
func depthOfLists(n *node) int {
	depth := 0
	for n.kind == listNode && len(n.items) > 0 {
		n = n.items[0]
		depth++
	}
	if n.kind != numberNode {
		return 0
	}
	return depth
}

func (s scope) positions(n *node, depth int, count *int) bool {
	if depth == 0 {
		*count++
		return s.position(n)
	}
	if n.kind != listNode {
		s.bad(n, "here stands a list of %s, not %s", [...]string{"", "positions", "rings"}[depth], n.shown())
		return false
	}
	ok := true
	for _, item := range n.items {
		ok = s.positions(item, depth-1, count) && ok
	}
	return ok
}

func (s scope) position(n *node) bool {
	switch {
	case n.kind != listNode:
		s.bad(n, "a position is a list of two numbers, [x, y], not %s", n.shown())
		return false
	case len(n.items) == 3:
		s.bad(n, "a position has two numbers, [x, y], and not a third; heights are said by the level")
		return false
	case len(n.items) != 2:
		s.bad(n, "a position has two numbers, [x, y], not %d", len(n.items))
		return false
	}
	_, okX := s.numberAt(n.items[0], "x", coordinateLimits)
	_, okY := s.numberAt(n.items[1], "y", coordinateLimits)
	return okX && okY
}

// decode brings checked coordinates to the grid, in metres.
func (s *survey) decode(g fields, kind string) (out shape) {
	n := g.get("coordinates")
	out.n = n
	raw := s.data[n.start:n.end]
	var err error
	switch kind {
	case "Point":
		var c orb.Point
		if err = json.Unmarshal(raw, &c); err == nil {
			p := s.grid(c)
			out.point, out.sound = &p, true
		}
	case "LineString":
		var c orb.LineString
		if err = json.Unmarshal(raw, &c); err == nil {
			out.line = s.gridLine(c)
			out.sound = g.checkLine(n, out.line)
		}
	case "Polygon":
		var c orb.Polygon
		if err = json.Unmarshal(raw, &c); err == nil && len(c) == 0 {
			g.bad(n, "the polygon has no ring")
		} else if err == nil {
			rings := make([]geom.Ring, len(c))
			for i, ring := range c {
				rings[i] = s.gridLine(orb.LineString(ring))
			}
			out.region, out.sound = s.checkRings(g, n, rings)
		}
	}
	if err != nil {
		g.bad(n, "the coordinates cannot be decoded: %v", err)
	}
	return out
}

func (s scope) gridLine(line orb.LineString) []geom.Pt {
	out := make([]geom.Pt, len(line))
	for i, p := range line {
		out[i] = s.grid(p)
	}
	return out
}

func (s scope) grid(p orb.Point) geom.Pt { return geom.FromMetres(p[0]*s.metre, p[1]*s.metre) }

// at writes a place as the file would, such as (3.5, 2.1).
func (s scope) at(p geom.Pt) string {
	x, y := p.Metres()
	return fmt.Sprintf("(%s, %s)", trimmed(x/s.metre), trimmed(y/s.metre))
}

// length writes a length in the file's unit.
func (s scope) length(metres float64) string { return measured(metres/s.metre) + " " + s.unit }

// area writes an area in square metres, and in square feet where the file has feet.
func (s scope) area(m2 float64) string {
	if s.unit == string(Metres) {
		return measured(m2) + " m2"
	}
	return fmt.Sprintf("%s m2 (%s %s2)", measured(m2), measured(m2/s.metre/s.metre), s.unit)
}

func (s scope) checkLine(n *node, line []geom.Pt) bool {
	if len(line) < 2 {
		s.bad(n, "a line has two positions or more, not %d", len(line))
		return false
	}
	for i := 1; i < len(line); i++ {
		if line[i] == line[i-1] {
			s.bad(n.items[i], "the line stands still at %s", s.at(line[i]))
			return false
		}
	}
	return true
}

// checkRings checks the rings of a polygon as written, mends winding and
// repeated corners, and gives the region, not sound where a rule is broken.
func (s *survey) checkRings(f fields, n *node, rings []geom.Ring) (region *geom.Region, sound bool) {
	sound = true
	reversed := false
	for i, ring := range rings {
		last := len(ring) - 1
		if last < 1 {
			continue
		}
		if ring[0] == ring[last] {
			rings[i] = ring[:last]
		} else {
			sound = false
			f.bad(n.items[i].items[last], "the ring is not closed: it ends at %s and begins at %s; a ring ends with its first corner",
				f.at(ring[last]), f.at(ring[0]))
		}
	}
	breaches := geom.Breaches(rings)
	for i, b := range breaches {
		sound = false
		if i+1 < len(breaches) && breaches[i+1].Ring == b.Ring && breaches[i+1].At == b.At {
			continue // two names of one fault
		}
		f.bad(n.items[b.Ring], "%s", f.breach(b, len(rings)))
	}
	for i, ring := range rings {
		if repeats := ring.RepeatedCorners(); len(repeats) > 0 && sound {
			s.warn(f.about, "%s: the corner %s is repeated; left out once [%s]", quoteUnlessPlain(f.about), f.at(repeats[0]), n.items[i].place())
		}
		rings[i] = ring.WithoutRepeats()
		reversed = reversed || ring.CounterClockwise() != (i == 0)
	}
	r := geom.Region{Outer: rings[0], Holes: rings[1:]}
	if len(r.Holes) == 0 {
		r.Holes = nil
	}
	if !sound {
		return &r, false
	}
	if r.AreaM2() < leastFootprint {
		f.bad(n, "the polygon has no area")
		return &r, false
	}
	if reversed {
		s.reversed = append(s.reversed, n)
	}
	r = geom.Wound(r)
	return &r, true
}

// breach says in the file's terms how a ring fails.
func (s scope) breach(b geom.Breach, rings int) string {
	ring := "the ring"
	if b.Ring > 0 {
		ring = "the hole"
	} else if rings > 1 {
		ring = "the outer ring"
	}
	switch b.Kind {
	case geom.FewCorners:
		return ring + " has fewer than 3 distinct corners"
	case geom.ZeroArea:
		return ring + " has no area: all its corners lie on one line"
	case geom.SelfCrossing:
		return fmt.Sprintf("%s crosses itself at %s", ring, s.at(b.At))
	case geom.SelfTouching:
		return fmt.Sprintf("%s touches itself or runs back along itself at %s", ring, s.at(b.At))
	case geom.HoleOutside:
		return fmt.Sprintf("%s leaves the outer ring or runs along it at %s", ring, s.at(b.At))
	case geom.HoleOverlap:
		return fmt.Sprintf("%s overlaps another hole at %s", ring, s.at(b.At))
	}
	return fmt.Sprintf("%s: %s at %s", ring, b.Kind, s.at(b.At))
}
