package plan

// Washer and dryer, in metres.
const (
	// laundry-side: 27 in wide, 57 in for both with their gaps, 30 in deep
	// (trade; read), and 4 in behind them for hoses and duct (laundry-stack; read).
	machineWide  = 27 * inch
	machineDeep  = 30 * inch
	machinesWide = 57 * inch
	behindThem   = 4 * inch
	machinesHigh = 1.00
	// laundry-stack: 28 in by 34 in on plan, 80 in high, 1 in clear to either
	// side (trade; read).
	towerWide = 28 * inch
	towerDeep = 34 * inch
	towerHigh = 80 * inch
	towerBay  = 30 * inch
)

// sideBySide gives washer and dryer beside each other.
func sideBySide() []part {
	const half = machinesWide / 2
	machine := func(use string, from float64) part {
		gap := (half - machineWide) / 2
		return part{
			role: aBody, x: span{from, from + half}, off: span{0, behindThem + machineDeep}, high: machinesHigh, use: use,
			drawn: [2]span{{from + gap, from + gap + machineWide}, {behindThem, behindThem + machineDeep}},
		}
	}
	washer, dryer := machine("washer", 0), machine("dryer", half)
	washer.pipe = wastePipe
	return []part{washer, dryer}
}

// tower gives the dryer on the washer.
func tower() []part {
	const side = (towerBay - towerWide) / 2
	return []part{
		{role: aBody, x: span{0, towerWide}, off: span{0, towerDeep}, high: towerHigh, use: "washer", pipe: wastePipe},
		{role: aBay, x: span{-side, towerWide + side}, off: span{0, towerDeep}},
	}
}

// laundryWant places washer and dryer, beside each other or, behind that in
// order, the dryer on the washer.
var laundryWant = want{"washer and dryer", func(r *fitRoom, done []placed) []placed {
	out := r.before(sideBySide(), machinesWide, laundryFront, 0, done)
	stacked := r.before(tower(), towerWide, laundryFront, 1, done)
	for i := range stacked {
		stacked[i].stacked = true
	}
	return r.nearestDrainFirst(append(out, stacked...))
}}
