package plan

import (
	"cmp"
	"fmt"
	"slices"

	"moiety/geom"
)

// usualHeight is the height of a room whose height was not surveyed, in
// metres: 8 ft, the common ceiling (common practice, no source).
const usualHeight = 2.44

// addCells makes a cell of each space and each flight, sorted by id.
func (b *builder) addCells() error {
	h := b.House
	for _, s := range h.Spaces {
		height := s.Height
		switch {
		case s.Outdoor:
			height = 0
		case height <= 0:
			height = usualHeight
			b.warn(s.ID, "the height of %s was not surveyed: %.2f m is taken", s.ID, height)
		}
		b.Cells = append(b.Cells, Cell{
			ID: s.ID, Of: cmp.Or(s.Of, s.ID), Name: s.Name, Use: s.Use, Also: s.Also,
			Level: s.Level, To: s.Level, Region: s.Region, AreaM2: s.Region.AreaM2(),
			Floor: s.Floor, Ceiling: s.Floor + height,
			Outdoor: s.Outdoor, Public: s.Use.Public(), Heated: s.Heated, Through: s.Through,
		})
	}
	for _, f := range h.Stairs {
		foot, head := h.Levels[f.Level], h.Levels[f.To]
		c := Cell{
			ID: f.ID, Of: f.ID, Name: f.Name, Flight: true,
			Level: f.Level, To: f.To, Region: f.Region, AreaM2: f.Region.AreaM2(),
			Floor: foot.Floor, Ceiling: head.Floor + head.Height,
			Outdoor: foot.Outdoor, Heated: !foot.Outdoor,
		}
		if c.Outdoor {
			c.Ceiling = c.Floor
		}
		b.Cells = append(b.Cells, c)
	}
	slices.SortFunc(b.Cells, func(c, d Cell) int { return cmp.Compare(c.ID, d.ID) })
	return nil
}

// addSolids gives each cell its body. A space is one prism. A flight has its
// footprint on the level of its foot, from floor to floor, and its void on the
// level of its head, less what was surveyed there over its low end: spaces,
// and the flight that climbs on above it.
func (b *builder) addSolids() error {
	for i := range b.Cells {
		c := &b.Cells[i]
		if !c.Flight {
			b.addSolid(solid{cell: i, level: c.Level, floor: c.Floor}, geom.Shape{c.Region}, c.Floor, c.Ceiling)
			continue
		}
		foot, err := b.footprintOn(c, c.Level, false)
		if err != nil {
			return err
		}
		void, err := b.footprintOn(c, c.To, true)
		if err != nil {
			return err
		}
		head := b.House.Levels[c.To]
		b.addSolid(solid{cell: i, level: c.Level, floor: c.Floor, flight: true}, foot, c.Floor, head.Floor)
		body := solid{cell: i, level: c.To, floor: head.Floor, flight: true, void: true}
		for _, above := range b.flightsOver(c) {
			under, beside, err := parted(void, above.Region)
			if err != nil {
				return fmt.Errorf("flight %q under %q: %w", c.ID, above.ID, err)
			}
			if under.AreaM2() > sliverM2 {
				b.addSolid(body, under, head.Floor, above.Floor)
				void = beside
			}
		}
		b.addSolid(body, void, head.Floor, head.Floor+head.Height)
	}
	return nil
}

// flightsOver gives the flights that start over a flight's void, below its
// ceiling, the lowest first: in a split level one climbs above the other.
func (b *builder) flightsOver(flight *Cell) []*Cell {
	floor := b.House.Levels[flight.To].Floor
	var out []*Cell
	for i := range b.Cells {
		c := &b.Cells[i]
		if c.Flight && !c.Outdoor && c != flight && c.Floor > floor+geom.Coincide && c.Floor < flight.Ceiling &&
			c.Region.Bounds().Meets(flight.Region.Bounds()) {
			out = append(out, c)
		}
	}
	slices.SortStableFunc(out, func(c, d *Cell) int { return cmp.Compare(c.Floor, d.Floor) })
	return out
}

func (b *builder) addSolid(s solid, shape geom.Shape, low, high float64) {
	s.Layer, s.Unenclosed = s.level, b.Cells[s.cell].Outdoor
	s.Low, s.High = low, high
	for _, r := range shape {
		s.Base = r
		b.solids = append(b.solids, s)
	}
}

// footprintOn gives the footprint of a flight on a level, less what was
// surveyed there within it: spaces and, on the level of its head, other
// flights that start there. Ground outdoors does not count against an indoor
// flight: the yard may be drawn over a cellar stair.
func (b *builder) footprintOn(flight *Cell, level int, flights bool) (geom.Shape, error) {
	footprint := geom.Shape{flight.Region}
	box := flight.Region.Bounds()
	regions := []geom.Region{flight.Region}
	for i := range b.Cells {
		c := &b.Cells[i]
		if c.Level != level || c == flight || c.Outdoor != flight.Outdoor || (c.Flight && !flights) || !c.Region.Bounds().Meets(box) {
			continue
		}
		common, err := geom.Intersection(footprint, geom.Shape{c.Region})
		if err != nil {
			return nil, fmt.Errorf("flight %q and %q: %w", flight.ID, c.ID, err)
		}
		if common.AreaM2() > sliverM2 {
			regions = append(regions, c.Region)
		}
	}
	if len(regions) == 1 {
		return footprint, nil
	}
	_, left, err := parted(footprint, regions[1:]...)
	if err != nil {
		return nil, fmt.Errorf("flight %q on level %q: %w", flight.ID, b.House.Levels[level].ID, err)
	}
	return left, nil
}

// parted gives what of a shape lies in the cutters, and what beside them.
// Levels are surveyed one by one: edges that were meant to coincide do so only
// within a reading, and are brought together lest they leave slivers.
func parted(shape geom.Shape, cutters ...geom.Region) (within, beside geom.Shape, err error) {
	snapped := geom.Snap(append(slices.Clone(shape), cutters...), geom.Coincide)
	shape, over := snapped[:len(shape)], geom.Shape(snapped[len(shape):])
	if within, err = geom.Intersection(shape, over); err != nil {
		return nil, nil, err
	}
	beside, err = geom.Difference(shape, over)
	return within, beside, err
}
