package plan

import (
	"fmt"
	"strings"
)

// workGroup sums the works of one kind, and of one unit where they are one's.
type workGroup struct {
	name         string
	places       []string
	length, area float64
	count        int
	cost         float64
	works        int
}

// groupWorks groups works, in the order in which each kind comes first.
func groupWorks(works []Work) []*workGroup {
	var groups []*workGroup
	index := map[string]*workGroup{}
	for _, w := range works {
		name := words(w.Kind)
		if w.Unit != "" {
			name += " for " + w.Unit
		}
		g := index[name]
		if g == nil {
			g = &workGroup{name: name}
			index[name] = g
			groups = append(groups, g)
		}
		place := w.Of
		if place == "" {
			place = strings.Join(w.Spaces, " | ")
		}
		if place != "" {
			g.places = append(g.places, place)
		}
		g.works++
		g.count += w.Count
		g.length += w.LengthM
		g.area += w.AreaM2
		g.cost += w.Cost
	}
	return groups
}

// where names up to two places, and counts more.
func (g *workGroup) where() string {
	if len(g.places) <= 2 {
		return strings.Join(g.places, ", ")
	}
	return fmt.Sprintf("%d places", len(g.places))
}

// quantity gives what the works amount to.
func (g *workGroup) quantity() string {
	switch {
	case g.area > 0 && g.length > 0:
		return fmt.Sprintf("%.2f m, %.2f m2", g.length, g.area)
	case g.area > 0:
		return fmt.Sprintf("%.2f m2", g.area)
	case g.length > 0:
		return fmt.Sprintf("%.2f m", g.length)
	case g.count > 0:
		return fmt.Sprintf("%d no.", g.count)
	}
	return fmt.Sprintf("%d no.", g.works)
}
