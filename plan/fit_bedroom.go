package plan

// Beds, in metres (common practice, no source): room to lie in, and to get in
// along one side. A headboard is no taller than what a low window sits at.
const (
	bedLong   = 1.90
	doubleBed = 1.40
	singleBed = 0.90
	bedHigh   = 0.60
	besideBed = 0.60
	// escapeSill is the highest sill of a window that people escape through:
	// 44 in (IRC R310.2.2, from memory).
	escapeSill = 44 * inch
	// escapeApproach is kept clear before it (common practice, no source).
	escapeApproach = 0.60
)

// bedLayouts gives the ways for a bed to stand: with its head to the wall, a
// clear side to the right or to the left; or along the wall.
func bedLayouts(wide float64) [][]part {
	head := part{role: aBody, x: span{0, wide}, off: span{0, bedLong}, high: bedHigh}
	along := part{role: aBody, x: span{0, bedLong}, off: span{0, wide}, high: bedHigh}
	return [][]part{
		{head, {role: aClear, x: span{wide, wide + besideBed}, off: span{0, bedLong}}},
		{head, {role: aClear, x: span{-besideBed, 0}, off: span{0, bedLong}}},
		{along, {role: aClear, x: span{0, bedLong}, off: span{wide, wide + besideBed}}},
	}
}

// bedWant places a double bed or, behind it in order, a single one.
var bedWant = want{"bed", func(r *fitRoom, done []placed) []placed {
	var out []placed
	for variant, wide := range [...]float64{doubleBed, singleBed} {
		for _, parts := range bedLayouts(wide) {
			out = append(out, r.along(parts, false, variant, done)...)
		}
	}
	return r.nearestDrainFirst(out)
}}

// escapes gives, once for each window that people may escape through, its
// approach as something that is placed already. Where every sill is too high,
// which is put right by other works, each window counts.
func (r *fitRoom) escapes() [][]placed {
	var low, all [][]placed
	for _, o := range r.obstacles {
		if o.kind != isPane {
			continue
		}
		// The pane's patch has the wall between its first two corners.
		a, b := o.patch[0], o.patch[1]
		dir := a.towards(b)
		run := wallRun{a: a, dir: dir, in: dir.left(), length: a.to(b)}
		clear := placedPart{part: part{role: aClear}, patch: run.rect(span{0, run.length}, span{0, escapeApproach})}
		given := []placed{{parts: []placedPart{clear}}}
		all = append(all, given)
		if o.sill <= escapeSill+fitTolerance {
			low = append(low, given)
		}
	}
	if len(low) > 0 {
		return low
	}
	return all
}
