package plan

import "math"

// Parts of a kitchen, in metres (appliance-footprints; from memory).
const (
	counterDeep  = 24 * inch
	counterHigh  = 0.95 // 36 in and an upstand (common practice, no source)
	sinkWide     = 30 * inch
	rangeWide    = 30 * inch
	rangeDeep    = 0.65
	hoodHigh     = 2.00 // a window never stands behind a range (common practice, no source)
	fridgeHigh   = 1.80
	sinkFromWall = 0.06 // of the bowl, as drawn
	sinkDeep     = 0.50
)

// item is a stretch of a kitchen: an appliance, or worktop where use is "".
type item struct {
	use  string
	wide float64
}

var (
	fridge      = item{"refrigerator", 30 * inch}
	smallFridge = item{"refrigerator", 24 * inch}
	bowl        = item{"sink", sinkWide}
	cooker      = item{"range", rangeWide}
)

func top(wide float64) item { return item{wide: wide} }

// sinkToRange is the least worktop between sink and range (24 in beside the
// sink, nkba-counter; from memory).
const sinkToRange = 0.60

// straightKitchens are the kitchens along one wall, from the refrigerator to
// the far end; landings after nkba-counter (from memory): 15 in beside the
// refrigerator and the range, 36 in to prepare food at, 12 in at the range's other side.
var straightKitchens = [][]item{
	{fridge, top(15 * inch), bowl, top(36 * inch), cooker, top(15 * inch)},
	{fridge, bowl, top(30 * inch), cooker, top(12 * inch)},
	{smallFridge, bowl, top(sinkToRange), cooker, top(12 * inch)},
	{smallFridge, bowl, top(sinkToRange), cooker},
}

// cornerKitchens are the kitchens around a corner: two arms, each from the
// corner outwards. The first has the worktop in the corner, which is worktop
// between sink and range; the second begins beside it.
var cornerKitchens = [][2][]item{
	{{top(counterDeep + 15*inch), bowl, fridge}, {top(15 * inch), cooker, top(15 * inch)}},
	{{top(counterDeep + 0.10), bowl, smallFridge}, {top(0.30), cooker, top(12 * inch)}},
	{{top(counterDeep + 0.10), bowl, smallFridge}, {top(0.30), cooker}},
	{{top(counterDeep + 0.10), bowl}, {top(0.30), cooker, top(15 * inch), smallFridge}},
}

// deep is how far an item stands out from the wall.
func (it item) deep() float64 {
	switch it.use {
	case "refrigerator":
		if it.wide > smallFridge.wide {
			return 0.75
		}
		return 0.66
	case "range":
		return rangeDeep
	}
	return counterDeep
}

// parts gives the body of an item that begins some way along the wall, and
// the work aisle before it.
func (it item) parts(from float64) []part {
	x := span{from, from + it.wide}
	body := part{role: aBody, x: x, off: span{0, it.deep()}, high: counterHigh, use: it.use}
	switch it.use {
	case "refrigerator":
		body.high = fridgeHigh
	case "range":
		body.high = hoodHigh
	case "sink":
		body.pipe = wastePipe
		body.drawn = [2]span{x, {sinkFromWall, sinkFromWall + sinkDeep}}
	}
	return []part{body, {role: aClear, x: x, off: span{it.deep(), it.deep() + workAisle}}}
}

// onCounter gives how much of the items is worktop, sinks included.
func onCounter(items []item) float64 {
	sum := 0.0
	for _, it := range items {
		if it.use == "" || it.use == "sink" {
			sum += it.wide
		}
	}
	return sum
}

// row gives the parts of items one after the other from a place along the wall.
func row(items []item, from float64) []part {
	var out []part
	for _, it := range items {
		out = append(out, it.parts(from)...)
		from += it.wide
	}
	return out
}

// arm is a row from a corner, whose first worktop is reached from beside it.
func arm(items []item, from float64) []part {
	parts := row(items, from)
	return append(parts[:1:1], parts[2:]...)
}

// turned gives parts in the opposite order, over the same length.
func turned(parts []part, length float64) []part {
	out := make([]part, len(parts))
	for i, p := range parts {
		p.x = span{length - p.x.to, length - p.x.from}
		if p.drawn != [2]span{} {
			p.drawn[0] = span{length - p.drawn[0].to, length - p.drawn[0].from}
		}
		out[i] = p
	}
	return out
}

func lengthOf(items []item) float64 {
	sum := 0.0
	for _, it := range items {
		sum += it.wide
	}
	return sum
}

// kitchenWant places a kitchen: sink, range and refrigerator on an unbroken
// worktop, along one wall or around a corner, with the work aisle before it.
var kitchenWant = want{"kitchen", func(r *fitRoom, done []placed) []placed {
	var out []placed
	for _, items := range straightKitchens {
		length := lengthOf(items)
		parts := row(items, 0)
		for _, way := range [...][]part{parts, turned(parts, length)} {
			for i := range r.runs {
				run := &r.runs[i]
				for _, at := range r.places(run, r.slots(run, way, done, nil), length) {
					p := placed{run: i, at: at, parts: r.put(i, at, way), worktop: onCounter(items)}
					if r.drained(p.parts) {
						out = append(out, p)
					}
				}
			}
		}
	}
	return r.nearestDrainFirst(append(out, r.aroundCorners(done)...))
}}

// squareCorner is the sine of the angle by which a corner may be off the
// square for a worktop to turn it: two degrees, a filler's width over its depth.
const squareCorner = 0.035

// aroundCorners gives the kitchens that turn a corner.
func (r *fitRoom) aroundCorners(done []placed) []placed {
	var out []placed
	for i := range r.runs {
		j := r.runs[i].next
		if j < 0 || math.Abs(r.runs[i].dir.dot(r.runs[j].dir)) > squareCorner {
			continue
		}
		for _, arms := range cornerKitchens {
			for _, swap := range [...]bool{false, true} {
				before, after := arms[0], arms[1]
				fromBefore, fromAfter := 0.0, counterDeep
				if swap {
					before, after = after, before
					fromBefore, fromAfter = fromAfter, fromBefore
				}
				p, ok := r.aroundCorner(i, j, arm(before, fromBefore), arm(after, fromAfter), done)
				if !ok {
					continue
				}
				p.worktop = onCounter(before) + onCounter(after)
				if r.drained(p.all()) {
					out = append(out, p)
				}
			}
		}
	}
	return out
}

// aroundCorner places one arm at the end of run i, counted back from the
// corner, and the other at the start of run j.
func (r *fitRoom) aroundCorner(i, j int, before, after []part, done []placed) (placed, bool) {
	length := 0.0
	for _, p := range before {
		length = max(length, p.x.to)
	}
	before = turned(before, length)
	first, second := &r.runs[i], &r.runs[j]
	at, ok := nearestPlace(r.slots(first, before, done, nil), first.length-length)
	if !ok {
		return placed{}, false
	}
	from, ok := nearestPlace(r.slots(second, after, done, nil), 0)
	if !ok {
		return placed{}, false
	}
	p := placed{run: i, at: at, parts: r.put(i, at, before), corner: r.put(j, from, after)}
	return p, true
}

// nearestPlace gives the place in slots nearest to one that is wanted, to within
// what a filler in the corner takes up.
func nearestPlace(slots []span, wanted float64) (float64, bool) {
	const filler = 0.02
	best, ok := 0.0, false
	for _, s := range slots {
		at := min(max(wanted, s.from), s.to)
		if d := math.Abs(at - wanted); d <= filler && (!ok || d < math.Abs(best-wanted)) {
			best, ok = at, true
		}
	}
	return best, ok
}
