package plan_test

import (
	"moiety/geom"
	"moiety/plan"
	"moiety/plan/services"
)

// cottage is a scheme put together by hand, in feet, so that the result files
// are tested against numbers that can be worked out on paper:
//
//	 y
//	20 +--------+----+--------+
//	   | living | s  | bed    |     living 10 x 20 ft = 18.58 m2
//	   |  (A)   |    |  (B)   |     bed    12 x 20 ft = 22.30 m2
//	 0 +--d1--- +----+---d2---+     stair   3 x 10 ft, living to attic (A)
//	   0       10.5 13.5     26
//	          yard (common)
//	-10 ----------------------      the attic lies over the bed (B below, A above)
//	          street
func cottage() *plan.Scheme {
	h := &plan.House{
		Name: "Cottage <two & one>", Unit: plan.Feet, North: 12,
		Grade: feet(-1.5), GradeSaid: true,
		Levels: []plan.Level{
			{ID: "site", Name: "Site", Floor: feet(-1.5), Outdoor: true},
			{ID: "main", Name: "Main floor", Floor: 0, Height: feet(8)},
			{ID: "attic", Name: "Attic floor", Floor: feet(9), Height: feet(7)},
		},
		SHA256: "0000000000000000000000000000000000000000000000000000000000000000",
		Doors: []plan.Door{
			{ID: "d1", Level: 1, Line: segment(3, -0.25, 6, -0.25), Height: feet(6.75), Leaf: plan.Single, OpensInto: "living"},
			{ID: "d2", Level: 1, Line: segment(18, -0.25, 21, -0.25), Height: feet(6.75), Leaf: plan.Single, OpensInto: "bed", RatingMinutes: 20},
			{ID: "d3", Level: 1, Line: segment(13.25, 15, 13.25, 17.5), Leaf: plan.Pocket},
		},
		Windows: []plan.Window{
			{ID: "w1", Level: 1, Line: segment(16, 20.25, 19, 20.25), Sill: feet(3), Height: feet(4), Operation: "casement",
				Clear: [2]float64{feet(2.5), feet(3.5)}, ClearSaid: true},
		},
		Fixtures: []plan.Fixture{
			{ID: "sink", Use: "sink", Level: 1, At: pt(1, 19)},
		},
	}
	b := &plan.Building{
		House: h,
		Cells: []plan.Cell{
			{ID: "attic", Of: "attic", Name: "Attic", Use: plan.Storage, Level: 2, To: 2, Region: box(13.5, 0, 25.5, 20), AreaM2: 240 * sqFoot, Floor: feet(9), Ceiling: feet(16), Heated: true},
			{ID: "bed", Of: "bed", Name: "Bedroom", Use: plan.Bedroom, Level: 1, To: 1, Region: box(13.5, 0, 25.5, 20), AreaM2: 240 * sqFoot, Ceiling: feet(8), Heated: true},
			{ID: "living", Of: "living", Name: "Living room, with \"kitchen\"", Use: plan.Living, Also: []plan.Use{plan.Kitchen}, Level: 1, To: 1, Region: box(0, 0, 10, 20), AreaM2: 200 * sqFoot, Ceiling: feet(8), Heated: true},
			{ID: "stair", Of: "stair", Name: "Stair", Flight: true, Level: 1, To: 2, Region: box(10, 0, 13, 10), AreaM2: 30 * sqFoot, Heated: true},
			{ID: "street", Of: "street", Name: "Street", Use: plan.Street, Region: box(0, -30, 26, -10), AreaM2: 520 * sqFoot, Floor: feet(-1.5), Ceiling: feet(-1.5), Outdoor: true, Public: true},
			{ID: "yard", Of: "yard", Name: "Yard", Use: plan.Yard, Floor: feet(-1.5), Ceiling: feet(-1.5), Outdoor: true,
				Region: geom.Region{Outer: box(-4, -20, 31, 20.8).Outer, Holes: []geom.Ring{{pt(0, 0), pt(0, 20), pt(26, 20), pt(26, 0)}}}},
		},
		WindowCells: [][2]int{{1, 5}},
		FixtureCell: []int{2},
	}
	// The yard's ring: 35 x 40.8 - 26 x 20 ft2.
	b.Cells[5].AreaM2 = (35*40.8 - 26*20) * sqFoot
	floor := geom.Shape{box(13.5, 0, 25.5, 8), box(13.5, 12, 25.5, 20)}
	return &plan.Scheme{
		ID: "1", Building: b, Brief: &plan.Brief{},
		Owners: []plan.Owner{plan.UnitA, plan.UnitB, plan.UnitA, plan.UnitA, plan.Nobody, plan.Common},
		Uses:   []plan.Use{plan.Bedroom, plan.Bedroom, plan.Living, "", plan.Street, plan.Yard},
		Proved: true, Bound: 20149.999, Cost: plan.Cost{Total: 20149.999, Works: 19000.004, Priorities: 1149.995},
		Units: [2]plan.Unit{
			{ID: "A", Name: "Garden suite", Cells: []int{0, 2, 3}, NetM2: 43.6644, GrossM2: 51.23456, AboveM2: 51.23456,
				Bedrooms: 1, Bathrooms: 1.5, Entries: []string{"d1"}, OutdoorM2: 0, Parking: 0},
			{ID: "B", Name: "B", Cells: []int{1}, NetM2: 22.2967, GrossM2: 27.5, AboveM2: 27.5, Bedrooms: 1, Entries: []string{"d2"},
				Notes: []string{"source of heat: not surveyed"}},
		},
		Shared: []plan.Shared{
			{ID: "yard", Use: "yard", Accepted: false, Why: "both entries are reached across it", Cure: "a second way in from the street"},
		},
		Works: []plan.Work{
			{ID: "W1", Kind: "seal_door", Level: "main", Spaces: []string{"bed", "living"}, Of: "d3", AreaM2: 1.53, Count: 1, Cost: 900},
			{ID: "W2", Kind: "upgrade_floor", Level: "attic", Spaces: []string{"attic", "bed"}, AreaM2: 17.8373, Cost: 8000.004},
			{ID: "W3", Kind: "upgrade_wall", Level: "main", Spaces: []string{"bed", "stair"}, LengthM: 3.048, AreaM2: 7.4322, Cost: 2100,
				Line: []geom.Pt{pt(13.25, 0), pt(13.25, 10)}},
			{ID: "W4", Kind: "new_kitchen", Unit: "B", Level: "main", Spaces: []string{"bed"}, Count: 1, Cost: 8000, Note: "fits at the north wall"},
		},
		Passages: []plan.Passage{
			{Of: "d1", Between: [2]string{"living", "yard"}, Type: "door", State: plan.Kept, Level: 1, Line: h.Doors[0].Line, Door: &h.Doors[0], Entry: "A"},
			{Of: "d2", Between: [2]string{"bed", "yard"}, Type: "door", State: plan.Kept, Level: 1, Line: h.Doors[1].Line, Door: &h.Doors[1], Entry: "B"},
			{Of: "d3", Between: [2]string{"bed", "living"}, Type: "door", State: plan.Sealed, Level: 1, Line: h.Doors[2].Line, Door: &h.Doors[2]},
			{Of: "stair", Between: [2]string{"living", "stair"}, Type: "stair", State: plan.Kept, Level: 1, Line: segment(10, 0, 13, 0)},
			{Of: "stair", Between: [2]string{"attic", "stair"}, Type: "stair", State: plan.Kept, Level: 2, Line: segment(10, 10, 13, 10)},
			{Of: "new-door-1", Between: [2]string{"bed", "yard"}, Type: "door", State: plan.New, Level: 1, Line: segment(22, -0.25, 25, -0.25), Door: &plan.Door{ID: "new-door-1"}},
			{Between: [2]string{"street", "yard"}, Type: "open", State: plan.Kept, Level: 0, Line: segment(0, -10, 26, -10)},
		},
		Walls: []plan.WallRun{
			{Between: [2]string{"bed", "stair"}, Level: 1, Line: segment(13.25, 0, 13.25, 10), Thickness: feet(0.5), Height: feet(8), State: plan.Separating, BuildUp: "separating wall"},
			{Between: [2]string{"living", "outside"}, Level: 1, Line: segment(0, 20.25, 10, 20.25), Thickness: feet(0.5), Height: feet(8), State: plan.Existing},
		},
		Floors: []plan.FloorRun{
			{Below: "bed", Above: "attic", Region: floor, State: plan.Separating, BuildUp: "separating floor"},
		},
		Fixtures: []plan.PlacedFixture{
			{Fixture: h.Fixtures[0], Unit: "A", State: plan.Kept},
			{Fixture: plan.Fixture{Use: "range", Level: 1, At: pt(14, 19), Footprint: region(box(14, 18, 16, 20))}, Unit: "B", State: plan.New},
		},
		Windows: []plan.PlacedWindow{{Window: h.Windows[0], Cell: "bed", Unit: "B", State: plan.Kept}},
		Noise: []plan.NoiseConflict{
			{Noisy: "living", NoisyUse: "living", Quiet: "bed", Surface: "wall", AreaM2: 7.4322, STC: 50, RatedBy: "taken", SourceDB: 72, ReceivedDB: 20.6, Cost: 594.58},
			{Noisy: "stair", NoisyUse: "stair", Quiet: "bed", Surface: "floor", Above: true, AreaM2: 2.5, STC: 53, IIC: 45, RatedBy: "SF1", SourceDB: 70, ReceivedDB: 12.4, Note: "steps"},
		},
		Services: []plan.Service{
			{Unit: "A", Kind: "ventilation", Answer: "14 l/s all the time", Result: services.Ventilation(43.6644, 1)},
			{Unit: "", Kind: "electrical", Answer: "one service for both of 175 A", Notes: []string{"two meters"}, Result: services.TwoDwellings(
				services.Taken(43.6644, 0, 3000, services.Gas, services.Electric), services.Taken(22.2967, 0, 2000, services.Electric, services.Electric))},
		},
		Alarms: []plan.Alarm{{
			ID: "SA-1", Kind: plan.SmokeCOAlarm, Level: 1, At: pt(19.5, 10), Unit: "B", Cell: "bed",
			Why: "in a sleeping room", Clause: "R314.3", Sounds: "B",
		}},
	}
}

const (
	foot   = 0.3048 // the international foot, 1959
	sqFoot = foot * foot
)

func feet(f float64) float64 { return f * foot }

func pt(x, y float64) geom.Pt { return geom.FromMetres(feet(x), feet(y)) }

func segment(x1, y1, x2, y2 float64) geom.Segment { return geom.Segment{A: pt(x1, y1), B: pt(x2, y2)} }

func box(x1, y1, x2, y2 float64) geom.Region {
	return geom.Region{Outer: geom.Ring{pt(x1, y1), pt(x2, y1), pt(x2, y2), pt(x1, y2)}}
}

func region(r geom.Region) *geom.Region { return &r }
