package plan

import "moiety/geom"

// The uses of a fixture that a function of a unit depends on are named by
// their words; this is the whole list of the survey format.
var fixtureWords = []string{
	"sink", "range", "refrigerator", "dishwasher", "wc", "basin", "bath", "shower", "washer", "dryer",
	"furnace", "boiler", "water_heater", "electrical_panel", "drain_stack", "water_entry", "gas_meter", "electric_meter", "fireplace",
}

func (s *survey) readFixture(f feature) {
	x := Fixture{ID: f.id, Level: f.level, Use: f.word("use", fixtureWords)}
	if f.get("use") == nil {
		f.missing("use", ", what it is")
	}
	x.CapacityL, _ = f.number("capacity_l", capacityLimits)
	switch {
	case f.shape.point != nil:
		x.At = *f.shape.point
	case f.shape.region != nil && f.shape.sound:
		x.Footprint = f.shape.region
		x.At = geom.FromMetres(f.shape.region.Centroid())
	}
	s.house.Fixtures = append(s.house.Fixtures, x)
}

func (s *survey) readWall(f feature) {
	s.house.Walls = append(s.house.Walls, WallMark{
		ID: f.id, Level: f.level, Line: f.shape.line, Bearing: f.truth("bearing", false),
	})
	s.nodes.walls = append(s.nodes.walls, f.n)
}

func (s *survey) readLot(f feature) {
	l := Lot{ID: f.id, Level: f.level}
	if f.level >= 0 && !s.house.Levels[f.level].Outdoor {
		f.bad(f.get("level"), `a lot lies on an outdoor level; %s is none (a level is outdoors with "outdoor": true)`, quoteUnlessPlain(s.house.Levels[f.level].ID))
	}
	if f.shape.region != nil {
		l.Region = *f.shape.region
	}
	s.house.Lots = append(s.house.Lots, l)
}
