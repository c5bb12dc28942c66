package render

import (
	"cmp"
	"slices"
	"strings"

	"moiety/plan"
)

// evidence says what in a set shows an item of the checklist.
type evidence int

const (
	byApplicant evidence = iota // no survey can supply it
	onCover
	onSitePlan
	onSiteGrade // on the site plan, where the survey says how the ground lies
	onPlans
	onSchedules
	onEscape // in the schedule of windows, where clear openings were surveyed
	onWells
	onSeparation
	onAlarms
	onServices
	onDetails
	onSection
	onElevations
	onLot     // where the property line was surveyed
	onParking // where stalls were surveyed
	onDrive
	onStreet
	onAmenity // where both units have ground of their own
	onFence
	onPlant // where something that heats was surveyed or is new
	onSound
	onFirePlan
)

// checkItem is one thing that published lists ask of a permit set.
type checkItem struct {
	id, sheet, text string
	shown           evidence
	by              string // whose list asks for it
}

// checklist is what 22 published lists of municipalities in Canada, the United
// States and the United Kingdom ask for, as far as each was read; the pages
// are named in testdata/permit-checklist.json. A list that does not name an
// item may still ask for it.
var checklist = []checkItem{
	{"site-scale", "site plan", "Scale stated", onSitePlan, "Mississauga ON, Newmarket ON, French River ON, Tacoma WA, Portland OR, Broxbourne UK, Cherwell UK"},
	{"site-north", "site plan", "North arrow", onSitePlan, "Mississauga ON, Newmarket ON, French River ON, Tacoma WA, Portland OR"},
	{"site-address", "site plan", "Municipal address", byApplicant, "Mississauga ON"},
	{"site-legal", "site plan", "Legal description (lot and plan)", byApplicant, "Mississauga ON, French River ON"},
	{"site-lines", "site plan", "Property lines with dimensions", onLot, "Mississauga ON, Newmarket ON, French River ON, Saskatoon SK, Calgary AB, Tacoma WA"},
	{"site-setbacks", "site plan", "Setbacks from every lot line", onLot, "Capital RD BC, French River ON, Saskatoon SK, Calgary AB, Tacoma WA"},
	{"site-bldgs", "site plan", "All buildings drawn, overall dimensions, existing ones labelled as existing", onSitePlan, "Mississauga ON, Saskatoon SK, French River ON, Markham ON, Tacoma WA, Capital RD BC, Calgary AB"},
	{"site-proposed", "site plan", "Proposed work hatched or labelled", onSitePlan, "French River ON, Newmarket ON, Tacoma WA"},
	{"site-between", "site plan", "Distance between buildings", byApplicant, "Tacoma WA"},
	{"site-easement", "site plan", "Easements and rights-of-way", byApplicant, "Mississauga ON, French River ON"},
	{"site-hard", "site plan", "Driveways, walks, hard and soft surfaces", onSitePlan, "Mississauga ON, Calgary AB, Tacoma WA"},
	{"site-street", "site plan", "Street, lane, curb crossings named", onStreet, "French River ON, Calgary AB, Saskatoon SK, Tacoma WA"},
	{"site-tree", "site plan", "Trees that matter (city trees; UK within 30 m)", byApplicant, "Saskatoon SK, Milton Keynes UK"},
	{"site-grade", "site plan", "Ground levels, slope or grade change", onSiteGrade, "Milton Keynes UK, Tacoma WA"},
	{"site-parking", "site plan", "Parking stalls for both units, dimensioned, with surface", onParking, "Williams Lake BC, Kamloops BC, Kelowna BC, Orangeville ON, Calgary AB, Tacoma WA"},
	{"site-drive", "site plan", "Driveway width, surface and any walkway attached to it", onDrive, "Mississauga ON"},
	{"site-access", "site plan", "Path from street/stall to the second unit door (walk, stair, lighting)", onSitePlan, "Williams Lake BC, Kamloops BC, Kelowna BC"},
	{"site-amenity", "site plan", "Private outdoor space for the second unit", onAmenity, "Kelowna BC, Calgary AB"},
	{"site-fence", "site plan", "Fences", onFence, "Calgary AB"},
	{"site-stats", "site plan", "Lot area, frontage, coverage (area and %), gross floor area total and per floor, area of second unit", onLot, "Mississauga ON, French River ON, Tacoma WA"},
	{"site-zoning", "site plan", "Zoning summary, permitted against proposed", byApplicant, "Markham ON"},
	{"site-septic", "site plan", "Septic field or sewage system, watercourse", byApplicant, "Capital RD BC, Markham ON, Fraser-Fort George RD BC"},
	{"site-drain", "site plan", "Drainage and public sewers", byApplicant, "Milton Keynes UK, Woking UK"},
	{"site-newopen", "site plan", "New exits or windows proposed, shown on the survey/site plan", onSitePlan, "Orangeville ON"},
	{"fp-scale", "floor plan", "Title and scale", onPlans, "Mississauga ON, Newmarket ON, Tacoma WA, Broxbourne UK, Woking UK, Fraser-Fort George RD BC, Capital RD BC"},
	{"fp-north", "floor plan", "North arrow", onPlans, "Mississauga ON, Tacoma WA"},
	{"fp-all", "floor plan", "Every level of the house, also the parts outside the new unit", onPlans, "Williams Lake BC, Kamloops BC, Calgary AB, Markham ON, Orangeville ON"},
	{"fp-exist-prop", "floor plan", "Separate existing and proposed plans, or both clearly told apart", onPlans, "Mississauga ON, Orangeville ON, Markham ON, Tacoma WA, Newmarket ON, Milton Keynes UK"},
	{"fp-legend", "floor plan", "Wall legend: to remain, to be demolished, new", onPlans, "Mississauga ON, Newmarket ON, Tacoma WA"},
	{"fp-walltypes", "floor plan", "Wall types / size, type and location of walls", onPlans, "Saskatoon SK, Newmarket ON"},
	{"fp-rooms", "floor plan", "Room names and uses", onPlans, "Mississauga ON, Williams Lake BC, Kamloops BC, Orangeville ON, Newmarket ON, Markham ON, Tacoma WA, Capital RD BC"},
	{"fp-dims", "floor plan", "Room sizes, interior and exterior dimensions", onPlans, "Mississauga ON, Williams Lake BC, Kamloops BC, Saskatoon SK, Orangeville ON, Newmarket ON, Tacoma WA, Milton Keynes UK"},
	{"fp-area", "floor plan", "Existing and new floor area", onCover, "Tacoma WA, Mississauga ON"},
	{"fp-doors", "floor plan", "Door sizes and swings", onSchedules, "Mississauga ON, Williams Lake BC, Kamloops BC, Saskatoon SK, Orangeville ON"},
	{"fp-windows", "floor plan", "Window sizes", onSchedules, "Mississauga ON, Williams Lake BC, Kamloops BC, Saskatoon SK, Orangeville ON"},
	{"fp-escape", "floor plan", "Bedroom escape window size; clear opening and sill height", onEscape, "Williams Lake BC, Kamloops BC, Litchfield Park AZ"},
	{"fp-well", "floor plan", "Window well location and size (ladder, grate)", onWells, "Williams Lake BC, Kamloops BC, Litchfield Park AZ"},
	{"fp-escape-path", "site plan", "Clear outside path from the escape window (36 in in one city)", byApplicant, "Litchfield Park AZ"},
	{"fp-fire", "floor plan", "Fire separation location and rating", onSeparation, "Williams Lake BC, Kamloops BC, Orangeville ON, Fraser-Fort George RD BC"},
	{"fp-sound", "floor plan", "Sound-rated assemblies", onSound, "Williams Lake BC, Kamloops BC, Fraser-Fort George RD BC"},
	{"fp-alarm", "floor plan", "Smoke and CO alarm types and locations", onAlarms, "Mississauga ON, Williams Lake BC, Kamloops BC"},
	{"fp-struct", "floor plan", "Structure: size, type, spacing, span direction; load-bearing walls, beams, columns, lintels", byApplicant, "Mississauga ON, Williams Lake BC, Kamloops BC"},
	{"fp-struct-frr", "detail", "Fire rating of load-bearing elements under the separation", byApplicant, "Kamloops BC"},
	{"fp-plumb", "floor plan", "Plumbing fixtures, existing and new, labelled", onServices, "Mississauga ON"},
	{"fp-floor-drain", "floor plan", "Floor drains", byApplicant, "Mississauga ON"},
	{"fp-hvac", "floor plan", "Heating and ventilation layout; supply and return grilles", byApplicant, "Mississauga ON, Williams Lake BC, Kamloops BC, Newmarket ON"},
	{"fp-mech", "floor plan", "Furnace / mechanical room location and its separation", onPlant, "Williams Lake BC"},
	{"fp-stairs", "floor plan", "Stairs: location, dimensions, direction", onPlans, "Newmarket ON, Markham ON"},
	{"fp-sectmarks", "floor plan", "Section marks", onSection, "Mississauga ON, Newmarket ON"},
	{"fp-detailrefs", "floor plan", "References to details", onDetails, "Newmarket ON"},
	{"fp-openings", "floor plan", "New openings: width, location, lintel", onPlans, "Newmarket ON"},
	{"fp-found", "floor plan", "Foundation plan (if altered)", byApplicant, "Capital RD BC, Orangeville ON"},
	{"fp-garage", "floor plan", "Garage and utility room size", onPlans, "Tacoma WA"},
	{"sec-build", "section", "Cross-section with construction and finishes", onSection, "Capital RD BC, Newmarket ON, Broxbourne UK, Milton Keynes UK, Woking UK, Cherwell UK"},
	{"sec-ceil", "section", "Ceiling heights", onSection, ""},
	{"sec-floors", "site plan", "Finished floor levels (first floor and basement)", onSection, "Markham ON"},
	{"sec-stair", "section", "Stair section: rise, run/tread, nosing, width, headroom, landings, handrail, lighting", onSection, "Litchfield Park AZ, Markham ON"},
	{"el-all", "elevation", "Elevations of every side, or of every changed side", onElevations, "Capital RD BC, Newmarket ON, Markham ON, Tacoma WA, Broxbourne UK, Milton Keynes UK, Woking UK, Cherwell UK"},
	{"el-label", "elevation", "Elevations labelled by compass direction, with scale", onElevations, "Newmarket ON, Tacoma WA"},
	{"el-heights", "elevation", "Vertical dimensions of walls, openings, grade line, overall height", onElevations, "Newmarket ON, Tacoma WA"},
	{"el-materials", "elevation", "Cladding, finishes, roof shape", byApplicant, "Newmarket ON, Tacoma WA"},
	{"el-limiting", "elevation", "Limiting distance and glazed-opening calculation", byApplicant, "Markham ON"},
	{"de-fire", "detail", "Fire separation construction details / rated assemblies", onDetails, "Williams Lake BC, Kamloops BC"},
	{"de-listed", "detail", "Listed or tested assembly numbers, evidence of testing", byApplicant, "Woking UK"},
	{"de-guards", "detail", "Guard and handrail details", byApplicant, "Markham ON"},
	{"de-truss", "detail", "Truss layout (if roof is touched)", byApplicant, "Fraser-Fort George RD BC, Markham ON"},
	{"sch-energy", "schedule", "Energy, heat loss and duct calculation, ventilation summary", byApplicant, "Markham ON, Fraser-Fort George RD BC"},
	{"sch-openings", "schedule", "Door and window schedule with clear opening and rating", onSchedules, ""},
	{"nt-spec", "notes", "Material specification / construction notes", byApplicant, "Markham ON, Newmarket ON, Broxbourne UK, Milton Keynes UK, Woking UK"},
	{"nt-standards", "notes", "Codes and design standards named", onCover, "Woking UK"},
	{"nt-calcs", "notes", "Structural or thermal calculations", byApplicant, "Broxbourne UK, Woking UK, Cherwell UK, Markham ON"},
	{"nt-designer", "notes", "Designer name, qualification and declaration", byApplicant, "French River ON, Orangeville ON"},
	{"nt-fireplan", "notes", "Extra plan set showing fire precautions", onFirePlan, "Broxbourne UK, Milton Keynes UK"},
	{"nt-sets", "notes", "Number of copies, sheet size, PDF", byApplicant, "Capital RD BC, Fraser-Fort George RD BC, Broxbourne UK, Milton Keynes UK, Portland OR, Armagh-Banbridge-Craigavon UK-NI"},
	{"nt-legible", "notes", "Black line work, legible, readable text height", onCover, "Portland OR"},
	{"nt-scope", "notes", "Construction value of the work", onCover, "Williams Lake BC, Kamloops BC"},
	{"nt-suite-share", "notes", "Area calculation proving the suite share of the house", onCover, "Kelowna BC, Mississauga ON"},
	{"nt-fullplans-uk", "notes", "Conversion of a house to flats needs a full-plans application", byApplicant, "Armagh-Banbridge-Craigavon UK-NI"},
}

// supplied tells whether the set shows an item.
func (p *project) supplied(e evidence) bool {
	switch e {
	case onCover, onPlans, onSchedules:
		return true
	case onSitePlan:
		return p.hasSite() || len(p.b.House.Lots) > 0
	case onSiteGrade:
		return p.hasSite() && p.b.House.GradeSaid
	case onEscape:
		return slices.ContainsFunc(p.s.Windows, func(w plan.PlacedWindow) bool { return w.ClearSaid })
	case onWells:
		return slices.ContainsFunc(p.s.Windows, func(w plan.PlacedWindow) bool { return w.WellSaid })
	case onSeparation:
		return len(p.buildUps.list) > 0 || p.hasSeparatingFloor()
	case onServices:
		return len(p.s.Fixtures) > 0
	case onDetails:
		return p.refs[buildUpDetails] != ""
	case onSection:
		return p.refs[sectionCut] != ""
	case onElevations:
		return p.refs[elevationViews] != ""
	case onAlarms:
		return p.refs[alarmPlan] != ""
	case onLot:
		return len(p.b.House.Lots) > 0
	case onParking:
		return p.hasGround(func(c plan.Cell) bool { return c.Use == plan.Parking })
	case onDrive:
		return p.hasGround(func(c plan.Cell) bool { return c.Use == plan.Drive })
	case onStreet:
		return p.hasGround(func(c plan.Cell) bool { return c.Public && c.Name != "" })
	case onAmenity:
		return p.s.Units[0].OutdoorM2 > 0 && p.s.Units[1].OutdoorM2 > 0
	case onFence:
		return slices.ContainsFunc(p.s.Walls, func(r plan.WallRun) bool { return r.Fence && r.State == plan.New })
	case onPlant:
		return slices.ContainsFunc(p.s.Fixtures, func(f plan.PlacedFixture) bool {
			return f.State != plan.Removed && (f.Use == "furnace" || f.Use == "boiler" || f.Use == "water_heater")
		})
	case onSound:
		return p.refs[buildUpDetails] != "" && slices.ContainsFunc(p.s.BuildUps, func(u plan.BuildUp) bool { return u.Assembly.STC > 0 })
	case onFirePlan:
		return p.refs[safetyPlan] != ""
	}
	return false
}

func (p *project) hasGround(is func(plan.Cell) bool) bool {
	return slices.ContainsFunc(p.b.Cells, func(c plan.Cell) bool { return c.Outdoor && is(c) })
}

// applicantBlock lists what the set does not show, by the sheet that it
// belongs on, and who asks for it.
func (p *project) applicantBlock() block {
	b := block{title: "To be added by applicant"}
	b.rows = append(b.rows, p.fonts.paragraph("Items that published permit lists ask for and that this set does not show, with those who ask, as far as their lists were read. The authority that has jurisdiction decides what it needs.", 0))
	var open []checkItem
	for _, i := range checklist {
		if !p.supplied(i.shown) {
			open = append(open, i)
		}
	}
	slices.SortStableFunc(open, func(a, b checkItem) int {
		return cmp.Compare(slices.Index(checkSheets, a.sheet), slices.Index(checkSheets, b.sheet))
	})
	for n, i := range open {
		if n == 0 || open[n-1].sheet != i.sheet {
			b.rows = append(b.rows, p.fonts.subhead(useName(plan.Use(i.sheet))))
		}
		text := i.text
		if i.by != "" {
			text += " (" + someOf(i.by) + ")"
		}
		b.rows = append(b.rows, p.fonts.paragraph("– "+text, 2))
	}
	return b
}

// checkSheets are the kinds of sheet that items belong on, in order.
var checkSheets = []string{"site plan", "floor plan", "section", "elevation", "detail", "schedule", "notes"}

// someOf names up to three of those who ask, and counts the others.
func someOf(by string) string {
	const most = 3
	names := strings.Split(by, ", ")
	if len(names) <= most {
		return by
	}
	return strings.Join(names[:most], ", ") + numbered(" and ", len(names)-most) + " more"
}

// subhead is a line in bold within a block.
func (t *typeface) subhead(text string) blockRow {
	return blockRow{height: textStep + 1.5, draw: func(s *Sheet, at Point) {
		s.write(Point{at.X, at.Y - smallText - 0.6}, words{text: text, height: smallText, bold: true}, onSheet())
	}, heads: true}
}
