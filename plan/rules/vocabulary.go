package rules

// ID names what a figure is about; the same in every set.
type ID string

// Sense says how a figure limits.
type Sense uint8

// The senses.
const (
	Asked   Sense = iota // a truth: asked or not
	AtLeast              // no less than the limit
	AtMost               // no more than the limit
	Says                 // a limit that only decides which other figure applies
)

// Term is one word of the vocabulary: all that a set may say.
type Term struct {
	ID       ID
	Topic    string
	Quantity Quantity
	Sense    Sense
	About    string // what it limits, in a few words
}

// The topics, in the order in which sets are printed.
const (
	Escape     = "escape openings"
	Ceilings   = "ceiling heights"
	Rooms      = "rooms"
	Light      = "daylight and air"
	Parking    = "parking"
	Separation = "separation of the units"
	Plant      = "rooms with fuel-burning plant"
	Garage     = "garage"
	Alarms     = "alarms"
	WaysOut    = "ways out"
	Stairs     = "stairs"
	Guards     = "guards and handrails"
	Proximity  = "openings near the other unit"
)

// vocabulary lists every term by topic.
var vocabulary = []Term{
	{"escape-required", Escape, Truth, Asked, "escape opening of each sleeping room"},
	{"escape-habitable-rooms", Escape, Truth, Asked, "escape opening of each habitable room"},
	{"escape-waived-by-sprinklers", Escape, Truth, Says, "no escape opening asked where there are sprinklers"},
	{"escape-basement-sprinklers", Escape, Truth, Says, "basement sleeping rooms with sprinklers"},
	{"escape-basements", Escape, Truth, Asked, "escape opening of a basement in which nobody sleeps"},
	{"escape-basement-plant", Escape, Area, Says, "basement for plant alone, so small that it needs no escape opening"},
	{"escape-area", Escape, Area, AtLeast, "clear area of an escape opening"},
	{"escape-area-at-grade", Escape, Area, AtLeast, "clear area of an escape opening at grade"},
	{"escape-at-grade-sill", Escape, Length, Says, "what counts as at grade: sill to ground"},
	{"escape-height", Escape, Length, AtLeast, "clear height of an escape opening"},
	{"escape-width", Escape, Length, AtLeast, "clear width of an escape opening"},
	{"escape-sill", Escape, Length, AtMost, "sill of an escape opening above the floor"},
	{"escape-operation", Escape, Truth, Asked, "how an escape opening is opened"},
	{"escape-well-area", Escape, Area, AtLeast, "area of a window well"},
	{"escape-well-projection", Escape, Length, AtLeast, "window well, out from the wall"},
	{"escape-well-width", Escape, Length, AtLeast, "window well, along the wall"},
	{"escape-well-ladder", Escape, Length, Says, "depth beyond which a window well needs a ladder"},
	{"escape-storey-height", Escape, Length, AtMost, "storey above ground whose windows count"},
	{"inner-rooms", Escape, Truth, Asked, "rooms reached only through another"},

	{"ceiling-habitable", Ceilings, Length, AtLeast, "ceiling of habitable rooms and halls"},
	{"ceiling-bathroom", Ceilings, Length, AtLeast, "ceiling of bathrooms and laundries"},
	{"ceiling-suite", Ceilings, Length, AtLeast, "ceiling in a secondary suite"},
	{"ceiling-unfinished", Ceilings, Length, AtLeast, "ceiling of an unfinished basement"},
	{"ceiling-under-beams", Ceilings, Length, AtLeast, "under beams and ducts"},
	{"ceiling-suite-under-beams", Ceilings, Length, AtLeast, "under beams and ducts in a secondary suite"},
	{"ceiling-slope-lowest", Ceilings, Length, AtLeast, "sloped ceiling over floor that counts"},
	{"ceiling-slope-share", Ceilings, Share, AtLeast, "share of the required area at full height under a slope"},
	{"ceiling-area-living", Ceilings, Area, AtLeast, "part at full height: living"},
	{"ceiling-area-dining", Ceilings, Area, AtLeast, "part at full height: dining"},
	{"ceiling-area-kitchen", Ceilings, Area, AtLeast, "part at full height: kitchen"},
	{"ceiling-area-first-bedroom", Ceilings, Area, AtLeast, "part at full height: first bedroom"},
	{"ceiling-area-bedroom", Ceilings, Area, AtLeast, "part at full height: other bedrooms"},
	{"ceiling-area-bathroom", Ceilings, Area, AtLeast, "part at full height: bathroom, laundry"},
	{"ceiling-dwelling", Ceilings, Length, AtLeast, "ceiling over most of a unit"},
	{"ceiling-dwelling-share", Ceilings, Share, AtLeast, "share of a unit's area at full height"},

	{"room-area", Rooms, Area, AtLeast, "area of habitable rooms but kitchens"},
	{"room-width", Rooms, Length, AtLeast, "width of habitable rooms but kitchens"},
	{"living-area", Rooms, Area, AtLeast, "area of a living room"},
	{"dining-area", Rooms, Area, AtLeast, "area of a dining room"},
	{"kitchen-area", Rooms, Area, AtLeast, "area of a kitchen"},
	{"bedroom-area", Rooms, Area, AtLeast, "area of a bedroom"},
	{"bedroom-width", Rooms, Length, AtLeast, "width of a bedroom"},
	{"bedroom-first-area", Rooms, Area, AtLeast, "area of a unit's largest bedroom"},
	{"bedroom-double-area", Rooms, Area, AtLeast, "area of a bedroom for two"},
	{"bedroom-double-width", Rooms, Length, AtLeast, "width of the first bedroom for two"},
	{"bedroom-double-other-width", Rooms, Length, AtLeast, "width of further bedrooms for two"},
	{"bedroom-double-required", Rooms, Truth, Asked, "a bedroom for two in a unit for two or more"},
	{"dwelling-area-1b1p", Rooms, Area, AtLeast, "unit of 1 bedroom for 1"},
	{"dwelling-area-1b1p-shower", Rooms, Area, AtLeast, "unit of 1 bedroom for 1, shower instead of bath"},
	{"dwelling-area-1b2p", Rooms, Area, AtLeast, "unit of 1 bedroom for 2"},
	{"dwelling-area-1b2p-two-storeys", Rooms, Area, AtLeast, "unit of 1 bedroom for 2, two storeys"},
	{"dwelling-area-2b3p", Rooms, Area, AtLeast, "unit of 2 bedrooms for 3"},
	{"dwelling-area-2b3p-two-storeys", Rooms, Area, AtLeast, "unit of 2 bedrooms for 3, two storeys"},
	{"dwelling-area-2b4p", Rooms, Area, AtLeast, "unit of 2 bedrooms for 4"},
	{"dwelling-area-2b4p-two-storeys", Rooms, Area, AtLeast, "unit of 2 bedrooms for 4, two storeys"},
	{"dwelling-area-3b4p", Rooms, Area, AtLeast, "unit of 3 bedrooms for 4"},
	{"dwelling-area-3b4p-two-storeys", Rooms, Area, AtLeast, "unit of 3 bedrooms for 4, two storeys"},
	{"dwelling-area-3b5p", Rooms, Area, AtLeast, "unit of 3 bedrooms for 5"},
	{"dwelling-area-3b5p-two-storeys", Rooms, Area, AtLeast, "unit of 3 bedrooms for 5, two storeys"},
	{"dwelling-area-3b6p", Rooms, Area, AtLeast, "unit of 3 bedrooms for 6"},
	{"dwelling-area-3b6p-two-storeys", Rooms, Area, AtLeast, "unit of 3 bedrooms for 6, two storeys"},
	{"second-unit-area", Rooms, Area, AtMost, "area of the secondary suite"},
	{"second-unit-share", Rooms, Share, AtMost, "secondary suite's share of both units' area"},
	{"fixtures-required", Rooms, Truth, Asked, "kitchen and bathroom of each unit"},

	{"glass-share", Light, Share, AtLeast, "glass to floor area of habitable rooms"},
	{"glass-share-bedroom", Light, Share, AtLeast, "glass to floor area of bedrooms"},
	{"vent-share", Light, Share, AtLeast, "openable to floor area of habitable rooms"},
	{"vent-share-narrow", Light, Share, AtLeast, "the same, windows that open little"},
	{"vent-area", Light, Area, AtLeast, "openable area of a room"},
	{"vent-area-bathroom", Light, Area, AtLeast, "openable area of a bathroom"},

	{"stall-width", Parking, Length, AtLeast, "width of a parking stall"},
	{"stall-length", Parking, Length, AtLeast, "length of a parking stall"},
	{"stalls-per-unit", Parking, Count, AtLeast, "parking stalls of each unit"},

	{"separation-rating", Separation, Time, AtLeast, "fire rating between the units"},
	{"separation-rating-storeys", Separation, Time, AtLeast, "the same, units of two storeys or more"},
	{"separation-rating-sprinklers", Separation, Time, AtLeast, "the same, with sprinklers"},
	{"separation-rating-upper", Separation, Time, AtLeast, "the same, high top floor"},
	{"separation-upper-height", Separation, Length, Says, "top floor above ground that counts as high"},
	{"separation-suite-lining", Separation, Length, AtLeast, "smoke-tight lining instead of a rating, secondary suite"},
	{"separation-compartment", Separation, Truth, Asked, "walls and floors between units are compartment walls and floors"},
	{"separation-support", Separation, Truth, Asked, "what carries the separation"},
	{"separation-continuity", Separation, Truth, Asked, "separation without gaps, up to the roof"},
	{"separation-attic-ceiling", Separation, Length, AtLeast, "ceiling board where the wall stops below the roof space"},
	{"separation-stair-shaft", Separation, Truth, Asked, "stair from one compartment to another"},
	{"separation-penetrations", Separation, Truth, Asked, "pipes, wires and ducts through the separation"},
	{"separation-drains", Separation, Truth, Says, "plastic drains on one side of the separation"},
	{"separation-door-rating", Separation, Time, AtLeast, "fire rating of a door in the separation"},
	{"separation-door-rating-1h", Separation, Time, AtLeast, "the same, in a separation of 1 h"},
	{"separation-door-thickness", Separation, Length, AtLeast, "solid leaf of a door in the separation"},
	{"separation-door-closer", Separation, Truth, Asked, "doors in the separation close themselves"},
	{"exit-lining", Separation, Length, AtLeast, "lining around an exit"},
	{"corridor-lining", Separation, Length, AtLeast, "lining around a common corridor"},
	{"under-stair-lining", Separation, Length, AtLeast, "lining of enclosed space under stairs"},
	{"ducts-own", Separation, Truth, Asked, "ducts of each unit its own"},
	{"heating-control", Separation, Truth, Asked, "heat that each unit controls"},

	{"plant-room-lining", Plant, Length, AtLeast, "lining of a room with fuel-burning plant"},
	{"plant-room-rating", Plant, Time, AtLeast, "fire rating around fuel-burning plant"},
	{"plant-room-largest-house", Plant, Area, Says, "house so small that plant needs no separation"},
	{"plant-room-door", Plant, Truth, Asked, "door of a room with fuel-burning plant opens outwards"},

	{"garage-rating", Garage, Time, AtLeast, "fire rating between garage and unit"},
	{"garage-rating-shared", Garage, Time, AtLeast, "the same, a garage that the unit does not have alone"},
	{"garage-lining", Garage, Length, AtLeast, "board on the garage's side"},
	{"garage-ceiling-lining", Garage, Length, AtLeast, "board under rooms above the garage"},
	{"garage-detached-distance", Garage, Length, AtLeast, "garage apart, from the dwelling"},
	{"garage-door-rating", Garage, Time, AtLeast, "fire rating of the door to the garage"},
	{"garage-door-closer", Garage, Truth, Asked, "door to the garage closes itself"},
	{"garage-no-bedroom-door", Garage, Truth, Asked, "no door from the garage into a sleeping room"},
	{"garage-ducts", Garage, Truth, Asked, "ducts through the garage's separation"},
	{"garage-floor-step", Garage, Length, AtLeast, "threshold above the garage floor"},
	{"carport-enclosed", Garage, Share, Says, "enclosed share beyond which a carport is a garage"},

	{"smoke-sleeping-rooms", Alarms, Truth, Asked, "smoke alarm in each sleeping room"},
	{"smoke-sleeping-areas", Alarms, Truth, Asked, "smoke alarm outside each sleeping area"},
	{"smoke-storeys", Alarms, Truth, Asked, "smoke alarm on each storey"},
	{"smoke-common", Alarms, Truth, Asked, "smoke alarms in common spaces"},
	{"smoke-distance", Alarms, Length, AtMost, "door of a habitable room to the nearest smoke alarm"},
	{"smoke-bathroom-distance", Alarms, Length, AtLeast, "smoke alarm from a bathroom's door"},
	{"smoke-link", Alarms, Truth, Asked, "smoke alarms of a unit sound together"},
	{"smoke-link-units", Alarms, Truth, Asked, "smoke alarms of both units sound together"},
	{"co-sleeping-areas", Alarms, Truth, Asked, "carbon monoxide alarm outside each sleeping area"},
	{"co-bedroom", Alarms, Truth, Asked, "carbon monoxide alarm in a bedroom with what burns fuel"},
	{"co-distance", Alarms, Length, AtMost, "door of a bedroom to the nearest carbon monoxide alarm"},
	{"co-appliance-room", Alarms, Truth, Asked, "carbon monoxide alarm by what burns fuel"},
	{"co-link-units", Alarms, Truth, Asked, "carbon monoxide alarms of both units sound together"},
	{"alarm-upgrade", Alarms, Truth, Asked, "existing alarms brought up to new ones"},

	{"exit-doors", WaysOut, Count, AtLeast, "ways out of each unit"},
	{"exit-own", WaysOut, Truth, Asked, "way out of each unit"},
	{"exit-may-be-shared", WaysOut, Truth, Says, "way out that both units use"},
	{"exit-no-garage", WaysOut, Truth, Asked, "way out through no garage"},
	{"exit-passage-height", WaysOut, Length, AtMost, "outside passage above ground with one stair"},
	{"exit-storeys", WaysOut, Count, AtMost, "storeys to a level with a way out"},
	{"travel-distance", WaysOut, Length, AtMost, "walk from any point of a room to the entrance"},
	{"travel-common-one-way", WaysOut, Length, AtMost, "walk in common space, one direction"},
	{"travel-common-two-ways", WaysOut, Length, AtMost, "walk in common space, two directions"},
	{"door-entrance-width", WaysOut, Length, AtLeast, "width of the entrance door"},
	{"door-entrance-height", WaysOut, Length, AtLeast, "height of the entrance door"},
	{"door-width-clear", WaysOut, Truth, Says, "door widths are clear openings, the leaf open"},
	{"door-room-width", WaysOut, Length, AtLeast, "width of room doors"},
	{"door-bathroom-width", WaysOut, Length, AtLeast, "width of bathroom doors"},
	{"door-height", WaysOut, Length, AtLeast, "height of inner doors"},
	{"door-height-suite", WaysOut, Length, AtLeast, "height of inner doors of a secondary suite"},
	{"hall-width", WaysOut, Length, AtLeast, "width of halls"},
	{"hall-width-narrow", WaysOut, Length, AtLeast, "width of halls, relaxed"},
	{"corridor-width", WaysOut, Length, AtLeast, "width of a common corridor"},
	{"approach-width", WaysOut, Length, AtLeast, "width of the path to the entrance"},

	{"stair-width", Stairs, Length, AtLeast, "width of a flight"},
	{"stair-width-one-rail", Stairs, Length, AtLeast, "width of a flight at one handrail"},
	{"stair-width-two-rails", Stairs, Length, AtLeast, "width of a flight between two handrails"},
	{"stair-width-common", Stairs, Length, AtLeast, "width of a common flight"},
	{"stair-rise-least", Stairs, Length, AtLeast, "rise of a step"},
	{"stair-rise-most", Stairs, Length, AtMost, "rise of a step"},
	{"stair-run-least", Stairs, Length, AtLeast, "run of a step"},
	{"stair-run-most", Stairs, Length, AtMost, "run of a step"},
	{"stair-sum-least", Stairs, Length, AtLeast, "twice the rise and the run"},
	{"stair-sum-most", Stairs, Length, AtMost, "twice the rise and the run"},
	{"stair-pitch", Stairs, Angle, AtMost, "pitch of a flight"},
	{"stair-headroom", Stairs, Length, AtLeast, "headroom over a flight"},
	{"stair-headroom-under-beams", Stairs, Length, AtLeast, "headroom over a flight under beams and ducts"},
	{"stair-landing", Stairs, Length, AtLeast, "landing, in the direction of travel"},
	{"stair-landing-as-wide", Stairs, Truth, Says, "landing as long as the flight is wide is enough"},

	{"handrail-least", Guards, Length, AtLeast, "height of a handrail"},
	{"handrail-most", Guards, Length, AtMost, "height of a handrail"},
	{"guard-height", Guards, Length, AtLeast, "height of a guard"},
	{"guard-height-high", Guards, Length, AtLeast, "height of a guard above a high drop"},
	{"guard-drop", Guards, Length, Says, "drop beyond which a guard is needed"},
	{"guard-low-drop", Guards, Length, Says, "drop outdoors up to which the lower guard does"},
	{"guard-gap", Guards, Length, AtMost, "gap in a guard"},

	{"opening-exit-distance", Proximity, Length, AtLeast, "opening of one unit from the other's exit door"},
	{"opening-corner-distance", Proximity, Length, AtLeast, "openings of the two units about a corner"},
	{"entrances-apart", Proximity, Length, AtLeast, "entrances of the two units from each other"},
	{"way-past-window", Proximity, Length, AtLeast, "way to one unit's entrance from a window of the other"},
}

// Vocabulary lists every term that a set may say, by topic.
func Vocabulary() []Term { return append([]Term(nil), vocabulary...) }

// Pairs lists the least and the most of the same thing.
func Pairs() [][2]ID {
	return [][2]ID{
		{"stair-rise-least", "stair-rise-most"}, {"stair-run-least", "stair-run-most"},
		{"stair-sum-least", "stair-sum-most"}, {"handrail-least", "handrail-most"},
	}
}

// TermOf gives the term of an id.
func TermOf(id ID) (Term, bool) {
	i, ok := termIndex[id]
	if !ok {
		return Term{}, false
	}
	return vocabulary[i], true
}

var termIndex = func() map[ID]int {
	index := make(map[ID]int, len(vocabulary))
	for i, t := range vocabulary {
		index[t.ID] = i
	}
	return index
}()
