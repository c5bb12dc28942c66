package render

import (
	"slices"

	"moiety/plan"
)

// entry is one thing that a legend explains.
type entry int

// The entries, in the order in which a legend lists them.
const (
	entryWall entry = iota
	entryOthers
	entrySeparating
	entryUpgraded
	entryNewWall
	entryRemoved
	entryBreak
	entrySealed
	entryFloorBelow
	entryFloorAbove
	entryUnitA
	entryUnitB
	entryCommon
	entryEntry
	entryNewDoor
	entryDoorTag
	entryWindowTag
	entryDoor
	entryOverhead
	entryOpening
	entryWindow
	entryWell
	entryFlightUp
	entryFlightDown
	entryClosedFlight
	entryNewFixture
	entryStructure
	entryGround
	entrySurface
	entryLot
	entryFootprint
	entrySetback
	entryWalk
	entryFence
	entryDividing
	entryGate
	entrySmokeAlarm
	entryCOAlarm
	entrySmokeCOAlarm
	entryEscape
	entryNumber
	entryCutFloor
	entryCutFlight
	entryCutGround
	entrySection
	entryMatchLine
	entryNewOpening
	entryOpeningKept
	entryCrossing
	entryTravel
	entries
)

// A note is a sentence that a sheet adds where it applies.
type note int

const (
	noteUnits note = iota
	noteSizes
	noteCeilings
	noteSwings
	noteExterior
	noteSeparation
	noteSite
	noteWalk
	notes
)

// legend gathers what occurs on a sheet.
type legend struct {
	seen    [entries]bool
	noted   [notes]bool
	letters [][2]string
	more    []string // notes with figures of their own

	dividings []dividing
	crossings [][2]string // drawn, each with what it is
	travels   [][2]string
}

func (l *legend) add(e entry) { l.seen[e] = true }

func (l *legend) note(n note) { l.noted[n] = true }

// say adds a note of its own, once.
func (l *legend) say(text string) {
	if !slices.Contains(l.more, text) {
		l.more = append(l.more, text)
	}
}

func (l *legend) travel(pair [2]string) {
	if !slices.Contains(l.travels, pair) {
		l.travels = append(l.travels, pair)
	}
}

func (l *legend) letter(pair [2]string) {
	if !slices.Contains(l.letters, pair) {
		l.letters = append(l.letters, pair)
	}
}

// join adds what another legend gathered, but not what belongs to one sheet.
func (l *legend) join(other *legend) {
	for e := range other.seen {
		l.seen[e] = l.seen[e] || other.seen[e]
	}
	l.seen[entryNumber], l.seen[entryDividing], l.seen[entryCrossing] = false, false, false
	for n := range other.noted {
		l.noted[n] = l.noted[n] || other.noted[n]
	}
	l.noted[noteSizes] = l.noted[noteSizes] && !l.noted[noteUnits] // said there too
	for _, pair := range other.letters {
		l.letter(pair)
	}
}

var entryTexts = [entries]string{
	entryWall:         "existing wall, to remain",
	entryOthers:       "wall of the other unit",
	entrySeparating:   "new separating wall",
	entryUpgraded:     "existing wall, upgraded to separate",
	entryNewWall:      "new wall within a unit",
	entryRemoved:      "to be removed",
	entryBreak:        "opening to be broken through",
	entrySealed:       "opening sealed, filled as the wall",
	entryFloorBelow:   "separating floor underfoot",
	entryFloorAbove:   "separating floor overhead",
	entryUnitA:        "unit A",
	entryUnitB:        "unit B",
	entryCommon:       "shared by both units",
	entryEntry:        "a unit's entry",
	entryNewDoor:      "new door, numbered",
	entryDoorTag:      "door, as in the schedule",
	entryWindowTag:    "window, as in the schedule",
	entryDoor:         "door with its swing",
	entryOverhead:     "overhead door, dashed when open",
	entryOpening:      "cased opening, no leaf",
	entryWindow:       "window",
	entryWell:         "window well",
	entryFlightUp:     "flight upwards, cut",
	entryFlightDown:   "flight from below, arrow upwards",
	entryClosedFlight: "flight closed off at this end",
	entryNewFixture:   "new fixture",
	entryStructure:    "porch, deck or the like",
	entryGround:       "edge of the ground beside the house",
	entrySurface:      "edge of a ground surface",
	entryLot:          "property line",
	entryFootprint:    "house, exterior face",
	entrySetback:      "distance to the property line",
	entryWalk:         "way from the street to an entry",
	entryFence:        "new fence",
	entryDividing:     "line to divide along, see the key",
	entryGate:         "gate, or door of an outbuilding",
	entrySmokeAlarm:   "smoke alarm, on the ceiling",
	entryCOAlarm:      "carbon monoxide alarm",
	entrySmokeCOAlarm: "smoke and carbon monoxide alarm",
	entryEscape:       "opening to escape by",
	entryNumber:       "room, see the key",
	entryCutFloor:     "separating floor, upgraded",
	entryCutFlight:    "flight, cut lengthwise",
	entryCutGround:    "ground",
	entryNewOpening:   "new or enlarged door or window",
	entryOpeningKept:  "door or window as it is",
	entryMatchLine:    "match line: the level goes on on another sheet",
	entryCrossing:     "crossing of the separation, see the key",
	entryTravel:       "way out, its number and length at its start",
	entrySection:      "line of the section, seen as the arrow points",
}

// entrySubjects are what the signs of a legend lead to on other sheets.
var entrySubjects = map[entry]subject{
	entryDoorTag: doorSchedule, entryWindowTag: windowSchedule,
	entrySmokeAlarm: alarmSchedule, entryCOAlarm: alarmSchedule, entrySmokeCOAlarm: alarmSchedule,
	entrySeparating: buildUpDetails, entryUpgraded: buildUpDetails, entryFloorBelow: buildUpDetails, entryFloorAbove: buildUpDetails,
}

// text is what a legend says of an entry, and on which sheet there is more.
func (e entry) text(refs map[subject]string) string {
	if number := refs[entrySubjects[e]]; number != "" {
		return entryTexts[e] + ", sheet " + number
	}
	return entryTexts[e]
}

// reach is how far the sample of an entry reaches up and down from its middle.
func (e entry) reach() float64 {
	switch e {
	case entrySmokeCOAlarm:
		return alarmSize(plan.SmokeCOAlarm)
	case entryCOAlarm:
		return alarmSize(plan.COAlarm)
	}
	return tagHeight / 2
}

// sample draws what an entry stands for within a small rectangle.
func (e entry) sample(s *Sheet, r Rect) {
	mid := r.centre().Y
	wall := Rect{r.X0, mid - 1.4, r.X1, mid + 1.4}
	quad := wall.corners()
	rings := [][]Point{quad[:]}
	faces := together(polyline(quad[0], quad[1]), polyline(quad[3], quad[2]))
	switch e {
	case entryWall:
		s.fill(layerWall, wallGrey, rectangle(wall))
		s.stroke(layerFace, line(thick), faces)
	case entryOthers:
		s.both(layerWall, blankGrey, line(hair).in(caption), rectangle(wall))
	case entrySeparating:
		s.stroke(layerHatch, line(thin), hatch(rings, hatchSeparating...))
		s.stroke(layerFace, line(heavy), faces)
	case entryUpgraded:
		s.fill(layerHatch, wallGrey, rectangle(wall))
		s.stroke(layerHatch, line(hair), hatch(rings, hatchUpgraded...))
		s.stroke(layerFace, line(heavy), faces)
	case entryNewWall:
		s.stroke(layerHatch, line(hair), hatch(rings, hatchNew...))
		s.stroke(layerFace, line(heavy), faces)
	case entryRemoved:
		s.stroke(layerHatch, line(medium).dashedBy(dashed), rectangle(wall))
	case entryBreak:
		s.stroke(layerHatch, line(medium).dashedBy(dashed), rectangle(wall))
		s.stroke(layerHatch, line(hair), together(polyline(quad[0], quad[2]), polyline(quad[1], quad[3])))
	case entrySealed:
		s.sampleSealed(r, mid)
	case entryFloorBelow:
		s.stroke(layerHidden, line(medium).dashedBy(dotted), rectangle(Rect{r.X0, mid - 1.5, r.X1, mid + 1.5}))
	case entryFloorAbove:
		s.stroke(layerHidden, line(medium).dashedBy(shortDashed), rectangle(Rect{r.X0, mid - 1.5, r.X1, mid + 1.5}))
	case entryUnitA, entryUnitB:
		s.sampleUnit(e, r, mid)
	case entryCommon:
		area := Rect{r.X0, mid - 1.9, r.X1, mid + 1.9}.corners()
		s.fill(layerPattern, faint, dots([][]Point{area[:]}, nil))
		s.stroke(layerSign, line(hair), polygon(area[:]...))
	case entryEntry:
		s.fill(layerSign, black, entrySign(Point{r.centre().X, mid - entryHeight/2}, Point{0, 1}))
	case entryNewDoor, entryDoor, entryGate:
		s.sampleDoor(e == entryNewDoor, r)
	case entrySmokeAlarm, entryCOAlarm, entrySmokeCOAlarm:
		kind := map[entry]plan.AlarmKind{entrySmokeAlarm: plan.SmokeAlarm, entryCOAlarm: plan.COAlarm, entrySmokeCOAlarm: plan.SmokeCOAlarm}[e]
		c := r.centre()
		s.both(layerSign, white, line(medium), alarmOutline(kind, c))
		s.write(Point{c.X, c.Y - smallText/2}, words{text: alarmLetter(kind), height: smallText, bold: true, align: atMiddle}, Box{Kind: TagBox, View: -1})
	case entryEscape:
		s.stroke(layerSign, line(thick), polyline(Point{r.X0 + 1, mid}, Point{r.X1 - 1, mid}))
		s.fill(layerSign, black, arrowHead(Point{r.X1 - 0.5, mid}, Point{1, 0}))
	case entryDoorTag, entryWindowTag:
		text := "D1"
		if e == entryWindowTag {
			text = "W1"
		}
		half := s.fonts.width(text, smallText, true)/2 + tagPadding
		c := r.centre()
		s.both(layerSign, white, line(thin), shapeOf(text).outline(Rect{c.X - half, c.Y - tagHeight/2, c.X + half, c.Y + tagHeight/2}))
		s.write(Point{c.X, c.Y - smallText/2}, words{text: text, height: smallText, align: atMiddle}, Box{Kind: TagBox, View: -1})
	case entryOverhead:
		s.both(layerDoor, white, line(medium), rectangle(Rect{r.X0, r.Y1 - 0.9, r.X1, r.Y1 - 0.4}))
		s.stroke(layerHidden, line(hair).dashedBy(dashed), polyline(Point{r.X0, r.Y1 - 0.9}, Point{r.X0, r.Y0 + 0.4}, Point{r.X1, r.Y0 + 0.4}, Point{r.X1, r.Y1 - 0.9}))
	case entryOpening:
		s.stroke(layerHidden, line(thin).dashedBy(dashed), faces)
	case entryWindow:
		s.stroke(layerOpening, line(thin), together(faces, polyline(Point{r.X0, mid - 0.4}, Point{r.X1, mid - 0.4}), polyline(Point{r.X0, mid + 0.4}, Point{r.X1, mid + 0.4}),
			polyline(quad[0], quad[3]), polyline(quad[1], quad[2])))
	case entryWell:
		s.stroke(layerFixture, line(medium), polyline(quad[0], quad[3], quad[2], quad[1]))
	case entryFlightUp, entryFlightDown, entryClosedFlight:
		s.sampleFlight(r, mid)
	case entryNewFixture:
		s.both(layerFixture, white, line(medium), rectangle(Rect{r.centre().X - 2.5, mid - 1.7, r.centre().X + 2.5, mid + 1.7}))
	case entryTravel:
		s.fill(layerSign, black, circle(Point{r.X0 + 0.9, mid}, 0.9))
		s.stroke(layerSign, line(medium).dashedBy(travelDash), polyline(Point{r.X0 + 0.9, mid}, Point{r.X1 - 1, mid}))
		s.fill(layerSign, black, arrowHead(Point{r.X1 - 0.3, mid}, Point{1, 0}))
	case entryCrossing:
		c := r.centre()
		s.both(layerSign, black, line(thin), crossingOutline(Rect{c.X - 3.6, c.Y - crossingSize, c.X + 3.6, c.Y + crossingSize}))
		s.write(Point{c.X, c.Y - smallText/2}, words{text: "P1", height: smallText, bold: true, ink: white, align: atMiddle}, Box{Kind: TagBox, View: -1})
	case entryStructure:
		s.stroke(layerFixture, line(thin), rectangle(wall))
	case entryGround:
		s.stroke(layerGround, line(hair).in(faint), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entrySurface:
		s.stroke(layerFixture, line(thin), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryLot:
		s.stroke(layerSign, line(thick).dashedBy(doubleDotted), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryFootprint:
		s.both(layerWall, wallGrey, line(thick), rectangle(wall))
	case entrySetback:
		s.stroke(layerDimension, line(hair), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
		for _, x := range []float64{r.X0, r.X1} {
			s.stroke(layerDimension, line(medium), polyline(Point{x - stroke45, mid - stroke45}, Point{x + stroke45, mid + stroke45}))
		}
	case entryWalk:
		s.stroke(layerSign, line(medium).dashedBy(dashDotted), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryFence:
		s.stroke(layerSign, line(thick), fenceLine(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryDividing:
		s.stroke(layerSign, line(thin).dashedBy(dashed), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryNewOpening:
		s.stroke(layerOpening, line(heavy), rectangle(Rect{r.centre().X - 2, mid - 1.9, r.centre().X + 2, mid + 1.9}))
	case entryOpeningKept:
		s.stroke(layerOpening, line(medium), rectangle(Rect{r.centre().X - 2, mid - 1.9, r.centre().X + 2, mid + 1.9}))
	case entryCutFloor:
		s.fill(layerHatch, wallGrey, rectangle(wall))
		s.stroke(layerHatch, line(hair), hatch(rings, hatchUpgraded...))
		s.stroke(layerFace, line(heavy), faces)
	case entryCutFlight:
		var steps []Point
		for i := range 4 {
			x, y := r.X0+float64(i)*2.4, mid-1.6+float64(i)*0.8
			steps = append(steps, Point{x, y}, Point{x, y + 0.8}, Point{x + 2.4, y + 0.8})
		}
		s.stroke(layerFlight, line(medium), polyline(steps...))
	case entryCutGround:
		earth := []Point{{r.X0, mid - 1.4}, {r.X1, mid - 1.4}, {r.X1, mid + 0.6}, {r.X0, mid + 0.6}}
		s.stroke(layerHatch, line(hair), hatch([][]Point{earth}, hatching{45, 1.6}))
		s.stroke(layerFace, line(heavy), polyline(Point{r.X0, mid + 0.6}, Point{r.X1, mid + 0.6}))
	case entrySection:
		s.stroke(layerSign, line(heavy), polyline(Point{r.X0 + 2, mid - 1}, Point{r.X0 + 7, mid - 1}))
		s.fill(layerSign, black, polygon(Point{r.X0 + 5.9, mid - 0.6}, Point{r.X0 + 8.1, mid - 0.6}, Point{r.X0 + 7, mid + 1.6}))
	case entryMatchLine:
		s.stroke(layerSign, line(heavy).dashedBy(matchDashed), polyline(Point{r.X0, mid}, Point{r.X1, mid}))
	case entryNumber:
		s.both(layerSign, white, line(thin), circle(Point{r.centre().X, mid}, 1.9))
	}
}

func (s *Sheet) sampleSealed(r Rect, mid float64) {
	wall := Rect{r.X0, mid - 1.4, r.X1, mid + 1.4}
	quad := wall.corners()
	s.stroke(layerHatch, line(hair), hatch([][]Point{quad[:]}, hatchInfill...))
	s.stroke(layerFace, line(heavy), rectangle(wall))
	c := r.centre()
	const arm = 2.2
	s.stroke(layerSign, line(thick), together(
		polyline(Point{c.X - arm, mid - arm}, Point{c.X + arm, mid + arm}), polyline(Point{c.X - arm, mid + arm}, Point{c.X + arm, mid - arm})))
}

func (s *Sheet) sampleUnit(e entry, r Rect, mid float64) {
	area := Rect{r.X0, mid - 1.9, r.X1, mid + 1.9}
	tint, c := tintA, r.centre()
	sign := circle(Point{c.X, mid}, 1.4)
	if e == entryUnitB {
		tint, sign = tintB, rectangle(Rect{c.X - 1.4, mid - 1.4, c.X + 1.4, mid + 1.4})
	}
	s.both(layerTint, tint, line(hair), rectangle(area))
	s.both(layerSign, white, line(medium), sign)
}

func (s *Sheet) sampleDoor(isNew bool, r Rect) {
	w := r.height() - 0.4
	at := Point{r.centre().X - w/2, r.Y0 + 0.2}
	leaf, swing := line(medium), line(hair)
	if isNew {
		leaf, swing = line(thick), line(thin)
	}
	s.stroke(layerDoor, swing, arc(at, w, 0, 90))
	s.stroke(layerDoor, leaf, polyline(at, at.add(Point{0, w})))
	s.stroke(layerOpening, line(hair), polyline(at, at.add(Point{w, 0})))
}

func (s *Sheet) sampleFlight(r Rect, mid float64) {
	for x := r.X0; x <= r.X1+1e-9; x += (r.X1 - r.X0) / 6 {
		s.stroke(layerFlight, line(thin), polyline(Point{x, mid - 1.6}, Point{x, mid + 1.6}))
	}
	tip := Point{r.X1, mid}
	s.stroke(layerFlight, line(thin), polyline(Point{r.X0, mid}, tip))
	s.fill(layerFlight, black, polygon(tip, tip.add(Point{-arrowLength, arrowHalf}), tip.add(Point{-arrowLength, -arrowHalf})))
}
