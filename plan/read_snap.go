package plan

import (
	"cmp"
	"slices"

	"moiety/geom"
)

// snap brings the corners of the spaces and flights of each level together
// where they meet within the survey's own inaccuracy. A flight goes with the
// level of its foot. The order is that of ids, so that the order of features
// changes nothing.
func (h *House) snap() {
	type room struct {
		id     string
		region *geom.Region
	}
	levels := make([][]room, len(h.Levels))
	for i := range h.Spaces {
		s := &h.Spaces[i]
		levels[s.Level] = append(levels[s.Level], room{s.ID, &s.Region})
	}
	for i := range h.Stairs {
		s := &h.Stairs[i]
		levels[s.Level] = append(levels[s.Level], room{s.ID, &s.Region})
	}
	for _, rooms := range levels {
		slices.SortFunc(rooms, func(a, b room) int { return cmp.Compare(a.id, b.id) })
		regions := make([]geom.Region, len(rooms))
		for i, r := range rooms {
			regions[i] = *r.region
		}
		for i, region := range geom.Snap(regions, geom.Coincide) {
			*rooms[i].region = region
		}
	}
}
