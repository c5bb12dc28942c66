package plan

// inch in metres.
const inch = 0.0254

// nominalSizes are the sizes in metres, width along the wall by depth, of a
// fixture that was surveyed as a point (common sizes of the trade, no source).
var nominalSizes = map[string][2]float64{
	"sink": {0.80, 0.50}, "range": {0.76, 0.65}, "refrigerator": {0.76, 0.75}, "dishwasher": {0.60, 0.60},
	"wc": {0.40, 0.70}, "basin": {0.56, 0.46}, "bath": {1.60, 0.76}, "shower": {0.90, 0.90},
	"washer": {0.68, 0.68}, "dryer": {0.68, 0.68}, "furnace": {0.55, 0.75}, "boiler": {0.45, 0.40},
	"water_heater": {0.56, 0.56}, "electrical_panel": {0.40, 0.12}, "drain_stack": {0.11, 0.11},
	"water_entry": {0.20, 0.20}, "gas_meter": {0.40, 0.25}, "electric_meter": {0.30, 0.15}, "fireplace": {1.20, 0.55},
}

// NominalSize gives the size of a fixture of which only the place was
// surveyed: width along the wall and depth, in metres.
func NominalSize(use string) (width, depth float64) {
	if s, ok := nominalSizes[use]; ok {
		return s[0], s[1]
	}
	return 0.5, 0.5
}

// Clear spaces of fixtures, in metres. The id is that of the figure in the
// project's references; "from memory" is what no text was at hand for.
const (
	// bath-centre-15: 15 in from the centre line of a wc to a wall or another
	// fixture, 30 in between centre lines (IRC R307.1, UPC 402.5, IPC 405.3; read).
	fixtureBay = 30 * inch
	// bath-front-21: 21 in clear in front of basin, wc and bath (IRC R307.1; read).
	bathroomFront = 21 * inch
	// bath-shower-24: 24 in clear in front of the entry of a shower (IRC P2705.1.5; read).
	showerFront = 24 * inch
	// bath-tub: 30 in alongside the bath (trade; read), here the length of the
	// stretch from which one steps in.
	besideBath = 30 * inch
	// nkba-work-aisle: 42 in for one cook (NKBA guideline 6; read).
	workAisle = 42 * inch
	// In front of washer and dryer (common practice, no source).
	laundryFront = 0.90
	// 30 in by 30 in of level space at the service side of an appliance
	// (IRC M1305.1, from memory).
	serviceFront = 30 * inch
	// 30 in wide, 36 in deep in front of a panel (NEC 110.26, from memory).
	panelWidth = 30 * inch
	panelFront = 36 * inch
)

// serviceSpace gives the width and depth of what stays clear in front of a
// fixture that stays; ok is false where it needs none.
func serviceSpace(use string, width float64) (wide, front float64, ok bool) {
	switch use {
	case "wc", "basin":
		return fixtureBay, bathroomFront, true
	case "bath":
		return width, bathroomFront, true
	case "shower":
		return width, showerFront, true
	case "sink", "range", "refrigerator", "dishwasher":
		return width, workAisle, true
	case "washer", "dryer":
		return width, laundryFront, true
	case "furnace", "boiler", "water_heater":
		return max(width, serviceFront), serviceFront, true
	case "electrical_panel":
		return max(width, panelWidth), panelFront, true
	}
	return 0, 0, false
}
