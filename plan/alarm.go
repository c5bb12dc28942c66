package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan/rules"
)

// AlarmKind says what an alarm tells of.
type AlarmKind string

// The kinds of alarm.
const (
	SmokeAlarm   AlarmKind = "smoke"
	COAlarm      AlarmKind = "co"
	SmokeCOAlarm AlarmKind = "smoke+co"
)

// smoke tells whether the alarm tells of smoke.
func (k AlarmKind) smoke() bool { return k != COAlarm }

// co tells whether the alarm tells of carbon monoxide.
func (k AlarmKind) co() bool { return k != SmokeAlarm }

// Alarm is a smoke or carbon monoxide alarm where a rule set asks for one: a
// place on the ceiling, for the electrician to start from.
type Alarm struct {
	ID     string // SA-1, CO-1
	Kind   AlarmKind
	Level  int
	At     geom.Pt // on the ceiling
	Unit   string  // "A", "B", or "common"
	Cell   string  // id of the cell
	Why    string  // a phrase: what asks for it
	Clause string  // of the figures that ask for it
	Sounds string  // whose alarms sound with it: "A", "B", "both", "" where the set asks for none
}

// PlaceAlarms gives the alarms that a rule set asks for in a scheme, by unit
// and level. Where fuel may be burnt, and the survey does not say otherwise,
// carbon monoxide alarms are among them. A set that asks for none gets none.
func PlaceAlarms(s *Scheme, set *rules.Set, conditions Conditions) []Alarm {
	if set == nil {
		return nil
	}
	p := &alarmPlan{s: s, b: s.Building, set: set, Conditions: conditions}
	for _, u := range bothUnits {
		p.owner, p.w = u, newWalks(s, u)
		p.bedrooms()
		p.sleepingAreas()
		p.storeys()
		p.reach("smoke-distance", SmokeAlarm, "within reach of every habitable room's door", p.roomsOfUnit())
		p.plantRooms()
	}
	p.owner = Common
	p.commonRooms()
	p.number()
	return p.alarms
}

// alarmPlan is the placing of alarms under way.
type alarmPlan struct {
	Conditions
	s      *Scheme
	b      *Building
	set    *rules.Set
	owner  Owner
	w      *walks
	alarms []Alarm
}

// asks tells whether the set asks for something, with its clause.
func (p *alarmPlan) asks(id rules.ID) (clause string, ok bool) {
	f, ok := p.set.Get(id)
	if !ok || f.Quantity == rules.Truth && !f.Yes() {
		return "", false
	}
	return f.Clause, true
}

// cells lists the indoor rooms of the owner.
func (p *alarmPlan) cells() []int {
	var out []int
	for c := range p.b.Cells {
		if cell := &p.b.Cells[c]; p.s.Owners[c] == p.owner && !cell.Flight && !cell.Outdoor && cell.Use != Garage {
			out = append(out, c)
		}
	}
	return out
}

func (p *alarmPlan) used(c int, uses ...Use) bool { return p.s.used(c, uses...) }

// used tells whether the scheme uses a cell for one of the uses, alone or among others.
func (s *Scheme) used(c int, uses ...Use) bool {
	return slices.Contains(uses, s.Uses[c]) || slices.ContainsFunc(s.Also[c], func(u Use) bool { return slices.Contains(uses, u) })
}

// add places an alarm among cells, near doors, or makes one that hangs there
// already tell of the kind too.
func (p *alarmPlan) add(kind AlarmKind, cells []int, near []geom.Pt, why, clause string) {
	for i := range p.alarms {
		if a := &p.alarms[i]; slices.ContainsFunc(cells, func(c int) bool { return p.b.Cells[c].ID == a.Cell }) {
			a.join(kind, why, clause)
			return
		}
	}
	p.hang(kind, cells, near, why, clause)
}

// hang places an alarm of its own.
func (p *alarmPlan) hang(kind AlarmKind, cells []int, near []geom.Pt, why, clause string) {
	at, cell := p.place(kind, cells, near)
	if kind.smoke() && p.used(cell, Kitchen) {
		why += "; by where one cooks a heat alarm is usual (common practice, no source)"
	}
	p.alarms = append(p.alarms, Alarm{
		Kind: kind, Level: p.b.Cells[cell].Level, At: at, Unit: p.s.Owners[cell].String(), Cell: p.b.Cells[cell].ID, Why: why, Clause: clause,
	})
}

// ours tells whether an alarm hangs where the people of the unit hear it: in
// the unit or in what is common.
func (p *alarmPlan) ours(a Alarm) bool {
	return a.Unit == p.owner.String() || a.Unit == Common.String()
}

// join makes an alarm one of another kind too.
func (a *Alarm) join(kind AlarmKind, why, clause string) {
	if a.Kind != kind {
		a.Kind = SmokeCOAlarm
	}
	if !strings.Contains(a.Why, why) {
		a.Why += "; " + why
	}
	if !strings.Contains(a.Clause, clause) {
		a.Clause += ", " + clause
	}
}

// bedrooms places an alarm in each bedroom.
func (p *alarmPlan) bedrooms() {
	clause, ok := p.asks("smoke-sleeping-rooms")
	if !ok {
		return
	}
	for _, c := range p.cells() {
		if p.used(c, Bedroom) {
			p.add(SmokeAlarm, []int{c}, nil, "in a sleeping room", clause)
		}
	}
	co, ok := p.asks("co-bedroom")
	if !ok || !p.MayBurnFuel() {
		return
	}
	for _, c := range p.cells() {
		if p.used(c, Bedroom) && slices.ContainsFunc(append(p.ensuites(c), c), p.holdsPlant) {
			p.add(COAlarm, []int{c}, nil, "in a sleeping room with what burns fuel", co)
		}
	}
}

// ensuites lists the bathrooms that open from a cell alone.
func (p *alarmPlan) ensuites(c int) []int {
	var out []int
	for _, g := range p.w.ends[p.w.floor[c]] {
		gate := &p.w.gates[g]
		if far := gate.cells[1-gate.side(p.w.floor[c])]; far != Outside && p.used(far, Bathroom, PowderRoom) && len(p.w.ends[p.w.floor[far]]) == 1 {
			out = append(out, far)
		}
	}
	return out
}

// plant are the fixtures that may burn fuel; a cooker is not counted.
var plant = []string{"furnace", "boiler", "water_heater", "fireplace"}

func (p *alarmPlan) holdsPlant(c int) bool {
	return slices.ContainsFunc(p.s.Fixtures, func(f PlacedFixture) bool {
		if !slices.Contains(plant, f.Use) || f.State == Removed || f.Level != p.b.Cells[c].Level {
			return false
		}
		return p.b.Cells[c].Region.Contains(f.centre()) != geom.Out
	})
}

// sleepingArea is what bedrooms open on to.
type sleepingArea struct {
	cells []int     // on to which they open
	doors []geom.Pt // of the bedrooms
	rooms []int
}

// areas gathers the sleeping areas of the unit: bedrooms that open on to one
// floor are one. A bedroom open to the rest of the floor is its own.
func (p *alarmPlan) areas() []sleepingArea {
	var out []sleepingArea
	var floors []int
	for _, c := range p.cells() {
		if !p.used(c, Bedroom) {
			continue
		}
		beyond, door := p.outOf(c)
		floor := p.w.floor[beyond]
		i := slices.Index(floors, floor)
		if i < 0 {
			floors = append(floors, floor)
			out = append(out, sleepingArea{})
			i = len(out) - 1
		}
		if !slices.Contains(out[i].cells, beyond) {
			out[i].cells = append(out[i].cells, beyond)
		}
		out[i].doors = append(out[i].doors, door)
		out[i].rooms = append(out[i].rooms, c)
	}
	return out
}

// outOf gives the cell that one comes to first on the way out of a room, past
// flights, and the door; the room itself where it is open to the rest.
func (p *alarmPlan) outOf(c int) (beyond int, door geom.Pt) {
	floor := p.w.floor[c]
	at, _ := geom.VisualCentre(p.b.Cells[c].Region)
	for _, to := range [...]TravelEnd{ToEntry, ToOutside} {
		r := p.w.outward(to, true)
		best := -1
		for _, g := range p.w.ends[floor] {
			if r.from(g, floor) && (best < 0 || r.length[g] < r.length[best]) {
				best = g
			}
		}
		if best < 0 || r.length[best] > longestWay {
			continue
		}
		door = p.w.gates[best].line.Mid()
		for g := best; g >= 0; g = r.next[g] {
			gate := &p.w.gates[g]
			far := gate.cells[1-gate.side(floor)]
			if far == Outside || p.b.Cells[far].Outdoor {
				return c, door
			}
			if !p.b.Cells[far].Flight {
				return far, door
			}
			floor = p.w.floor[far]
		}
	}
	return c, at
}

// longestWay is longer than any way in a house, in metres.
const longestWay = 1e6

// sleepingAreas places an alarm outside each sleeping area, and within the
// distance that the set allows of each bedroom's door.
func (p *alarmPlan) sleepingAreas() {
	burns, why := p.burns()
	for _, area := range p.areas() {
		if clause, ok := p.asks("smoke-sleeping-areas"); ok {
			p.add(SmokeAlarm, area.cells, area.doors, "outside a sleeping area", clause)
		}
		if clause, ok := p.asks("co-sleeping-areas"); ok && burns {
			p.add(COAlarm, area.cells, area.doors, "for carbon monoxide outside a sleeping area, "+why, clause)
		}
		if clause, ok := p.asks("co-distance"); ok && burns {
			p.add(COAlarm, area.cells, area.doors, "for carbon monoxide near the bedrooms' doors, "+why, clause)
			p.reach("co-distance", COAlarm, "for carbon monoxide near the bedrooms' doors, "+why, area.rooms)
		}
	}
}

// burns tells whether carbon monoxide may come about where the unit's people
// sleep, and why.
func (p *alarmPlan) burns() (bool, string) {
	known := false
	for c := range p.b.Cells {
		if !p.holdsPlant(c) {
			continue
		}
		known = true
		if p.MayBurnFuel() && (p.s.Owners[c] == p.owner || p.s.Owners[c] == Common) {
			return true, "where fuel may be burnt"
		}
	}
	for _, l := range p.b.Links {
		if l.V == Outside || l.Kind != LinkDoor && l.Kind != LinkOpening && l.Kind != LinkOpen || p.s.parted(l) == partedUnits {
			continue
		}
		u, v := l.U, l.V
		if p.b.Cells[v].Use == Garage {
			u, v = v, u
		}
		if p.b.Cells[u].Use == Garage && !p.b.Cells[v].Outdoor && p.s.Owners[v] == p.owner {
			return true, "where a garage opens into the unit"
		}
	}
	return !known && p.MayBurnFuel(), "no plant having been surveyed"
}

// storeys places an alarm on each storey that has none, by its flight.
func (p *alarmPlan) storeys() {
	clause, ok := p.asks("smoke-storeys")
	if !ok {
		return
	}
	for level := range p.b.House.Levels {
		var cells []int
		for _, c := range p.cells() {
			if p.b.Cells[c].Level == level {
				cells = append(cells, c)
			}
		}
		if len(cells) == 0 || slices.ContainsFunc(p.alarms, func(a Alarm) bool {
			return a.Kind.smoke() && a.Level == level && a.Unit == p.owner.String()
		}) {
			continue
		}
		cell, near := p.onStorey(cells)
		p.add(SmokeAlarm, []int{cell}, near, "on each storey", clause)
	}
}

// onStorey picks the room for the alarm of a storey: a hall at a flight, a
// hall, a room at a flight, else the largest that smoke and steam are not
// usual in.
func (p *alarmPlan) onStorey(cells []int) (cell int, near []geom.Pt) {
	rank := func(c int) (score float64, flights []geom.Pt) {
		for _, g := range p.w.ends[p.w.floor[c]] {
			gate := &p.w.gates[g]
			side := gate.side(p.w.floor[c])
			if far := gate.cells[1-side]; gate.cells[side] == c && far != Outside && p.b.Cells[far].Flight {
				flights = append(flights, gate.line.Mid())
			}
		}
		score = min(p.b.Cells[c].AreaM2/1000, 0.9)
		if p.used(c, Kitchen, Bathroom, PowderRoom, Laundry, Closet, Pantry, Mechanical) {
			score -= 2
		}
		if len(flights) > 0 {
			score += 2
		}
		if p.used(c, Hall, Entry) {
			score += 3
		}
		return score, flights
	}
	best := 0.0
	for i, c := range cells {
		if score, flights := rank(c); i == 0 || score > best+1e-6 {
			cell, near, best = c, flights, score
		}
	}
	return cell, near
}

// roomsOfUnit lists the unit's habitable rooms.
func (p *alarmPlan) roomsOfUnit() []int { return p.w.rooms() }

// reach adds alarms until the door of every room is within the set's distance
// of one, walked.
func (p *alarmPlan) reach(id rules.ID, kind AlarmKind, why string, rooms []int) {
	f, ok := p.set.Get(id)
	if !ok {
		return
	}
	for _, c := range rooms {
		beyond, door := p.outOf(c)
		if d, ok := p.nearest(c, door, kind); ok && f.Meets(d) {
			continue
		}
		p.hang(kind, []int{beyond}, []geom.Pt{door}, why, f.Clause)
	}
}

// nearest is how far the nearest alarm of a kind is from a room's door: 0
// where one hangs in the room, else the walk on the floor that the door opens to.
func (p *alarmPlan) nearest(c int, door geom.Pt, kind AlarmKind) (metres float64, ok bool) {
	beyond, _ := p.outOf(c)
	for _, a := range p.alarms {
		if !p.ours(a) || kind == COAlarm && !a.Kind.co() || kind == SmokeAlarm && !a.Kind.smoke() {
			continue
		}
		cell := p.b.CellNamed(a.Cell)
		if cell == c {
			return 0, true
		}
		if d, found := p.w.distance(p.w.floor[beyond], p.w.floor[cell], door, a.At); found && (!ok || d < metres) {
			metres, ok = d, true
		}
	}
	return metres, ok
}

// plantRooms places an alarm in each room with what burns fuel, where the set
// asks for it there. A set that asks for alarms by bedrooms asks for these only
// where the plant is outside of both units.
func (p *alarmPlan) plantRooms() {
	clause, ok := p.asks("co-appliance-room")
	if !ok || !p.MayBurnFuel() {
		return
	}
	_, byBedrooms := p.asks("co-distance")
	for _, c := range p.cells() {
		if p.holdsPlant(c) && (p.owner == Common || !byBedrooms) {
			p.add(COAlarm, []int{c}, nil, "in a room with what may burn fuel", clause)
		}
	}
}

// commonRooms places alarms in what both units use.
func (p *alarmPlan) commonRooms() {
	p.plantRooms()
	clause, ok := p.asks("smoke-common")
	if !ok {
		return
	}
	p.w = newWalks(p.s, UnitA)
	for level := range p.b.House.Levels {
		var cells []int
		for _, c := range p.cells() {
			if p.b.Cells[c].Level == level {
				cells = append(cells, c)
			}
		}
		if len(cells) > 0 {
			cell, near := p.onStorey(cells)
			p.add(SmokeAlarm, []int{cell}, near, "in a space that both units use", clause)
		}
	}
}

// number orders the alarms by unit, level and cell, numbers them and says
// whose alarms sound with them.
func (p *alarmPlan) number() {
	slices.SortStableFunc(p.alarms, func(a, b Alarm) int {
		if a.Unit != b.Unit {
			return strings.Compare(a.Unit, b.Unit)
		}
		if a.Level != b.Level {
			return a.Level - b.Level
		}
		return strings.Compare(a.Cell, b.Cell)
	})
	smoke, co := 0, 0
	for i := range p.alarms {
		a := &p.alarms[i]
		if a.Kind.smoke() {
			smoke++
			a.ID = fmt.Sprintf("SA-%d", smoke)
		} else {
			co++
			a.ID = fmt.Sprintf("CO-%d", co)
		}
		a.Sounds = p.sounds(a)
	}
}

// sounds says whose alarms sound with an alarm.
func (p *alarmPlan) sounds(a *Alarm) string {
	both := rules.ID("smoke-link-units")
	if !a.Kind.smoke() {
		both = "co-link-units"
	}
	if _, ok := p.asks(both); ok || a.Unit == Common.String() {
		return "both"
	}
	if _, ok := p.asks("smoke-link"); ok && a.Kind.smoke() {
		return a.Unit
	}
	return ""
}
