package plan

import (
	"fmt"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan/rules"
)

// checkAlarms compares the alarms of a scheme with what the set asks for. It
// goes by the alarms as they hang, however they came there.
func checkAlarms(c *checking) {
	for _, u := range bothUnits {
		p := &alarmPlan{s: c.s, b: c.b, set: c.set, Conditions: c.Conditions, owner: u, w: newWalks(c.s, u), alarms: c.s.Alarms}
		c.smokeAlarms(p)
		c.coAlarms(p)
		c.alarmLinks(p)
		c.existingAlarms(u)
	}
	c.commonAlarms()
	for _, a := range c.s.Alarms {
		c.alarmPlace(a)
	}
}

// commonAlarms judges whether an alarm hangs on each level of what both use.
func (c *checking) commonAlarms() {
	p := &alarmPlan{s: c.s, b: c.b, set: c.set, Conditions: c.Conditions, owner: Common, alarms: c.s.Alarms}
	if _, asked := p.asks("smoke-common"); !asked {
		return
	}
	for level, l := range c.b.House.Levels {
		if !slices.ContainsFunc(p.cells(), func(cell int) bool { return c.b.Cells[cell].Level == level }) {
			continue
		}
		alarms := p.alarmsIn(SmokeAlarm, func(cell int) bool { return c.b.Cells[cell].Level == level && c.s.Owners[cell] == Common })
		provided := "none"
		if len(alarms) > 0 {
			provided = strings.Join(alarms, ", ")
		}
		c.judged("smoke-common", len(alarms) > 0, provided, about{subject: l.ID, note: "what both units use of it", cure: alarmCure})
	}
}

const alarmCure = "an alarm at the place that the plan shows"

// alarmsIn lists the alarms of a kind that hang in a cell.
func (p *alarmPlan) alarmsIn(kind AlarmKind, in func(cell int) bool) []string {
	var out []string
	for _, a := range p.alarms {
		if (kind == SmokeAlarm && a.Kind.smoke() || kind == COAlarm && a.Kind.co()) && in(p.b.CellNamed(a.Cell)) {
			out = append(out, a.ID)
		}
	}
	return out
}

// hung judges whether alarms hang where the set asks for one.
func (c *checking) hung(p *alarmPlan, id rules.ID, kind AlarmKind, subject string, in func(cell int) bool) {
	if _, asked := p.asks(id); !asked {
		return
	}
	alarms := p.alarmsIn(kind, in)
	provided := "none"
	if len(alarms) > 0 {
		provided = strings.Join(alarms, ", ")
	}
	c.judged(id, len(alarms) > 0, provided, about{unit: p.owner.String(), subject: subject, cure: alarmCure})
}

func (c *checking) smokeAlarms(p *alarmPlan) {
	for _, cell := range p.cells() {
		if p.used(cell, Bedroom) {
			c.hung(p, "smoke-sleeping-rooms", SmokeAlarm, c.b.Cells[cell].ID, func(in int) bool { return in == cell })
		}
	}
	for _, area := range p.areas() {
		floor := p.w.floor[area.cells[0]]
		c.hung(p, "smoke-sleeping-areas", SmokeAlarm, c.b.Cells[area.cells[0]].ID, func(in int) bool { return p.w.floor[in] == floor })
	}
	for level, l := range c.b.House.Levels {
		if slices.ContainsFunc(p.cells(), func(cell int) bool { return c.b.Cells[cell].Level == level }) {
			c.hung(p, "smoke-storeys", SmokeAlarm, l.ID, func(in int) bool {
				return c.b.Cells[in].Level == level && (c.s.Owners[in] == p.owner || c.s.Owners[in] == Common)
			})
		}
	}
	c.alarmsWithin(p, "smoke-distance", SmokeAlarm, p.roomsOfUnit())
}

func (c *checking) coAlarms(p *alarmPlan) {
	burns, _ := p.burns()
	for _, area := range p.areas() {
		if !burns {
			continue
		}
		floor := p.w.floor[area.cells[0]]
		c.hung(p, "co-sleeping-areas", COAlarm, c.b.Cells[area.cells[0]].ID, func(in int) bool { return p.w.floor[in] == floor })
		c.alarmsWithin(p, "co-distance", COAlarm, area.rooms)
	}
	for _, id := range [...]rules.ID{"co-sleeping-areas", "co-distance"} {
		if _, asked := p.asks(id); asked && !burns && p.MayBurnFuel() {
			c.unknown(id, "", about{unit: p.owner.String(), subject: p.owner.String(), note: "nothing in or beside the unit was surveyed that burns fuel", cure: "look for a fireplace, a gas cooker, a boiler or heater, and a garage under or beside it"})
		}
	}
	if p.MayBurnFuel() {
		_, byBedrooms := p.asks("co-distance")
		for cell := range c.b.Cells {
			owner := c.s.Owners[cell]
			if !p.holdsPlant(cell) || owner != p.owner && (owner != Common || p.owner != UnitA) || byBedrooms && owner != Common {
				continue
			}
			c.hung(p, "co-appliance-room", COAlarm, c.b.Cells[cell].ID, func(in int) bool { return in == cell })
		}
		for _, cell := range p.cells() {
			if p.used(cell, Bedroom) && slices.ContainsFunc(append(p.ensuites(cell), cell), p.holdsPlant) {
				c.hung(p, "co-bedroom", COAlarm, c.b.Cells[cell].ID, func(in int) bool { return in == cell })
			}
		}
	}
}

// alarmsWithin measures the walk from the door of each room to the nearest alarm.
func (c *checking) alarmsWithin(p *alarmPlan, id rules.ID, kind AlarmKind, rooms []int) {
	for _, room := range rooms {
		_, door := p.outOf(room)
		a := about{unit: p.owner.String(), subject: c.b.Cells[room].ID, note: "walked from the room's door", cure: "one more alarm on the way"}
		if d, ok := p.nearest(room, door, kind); ok {
			c.measured(id, d, a)
		} else {
			a.note = "no alarm on the floor that its door opens to"
			c.judged(id, false, "none", a)
		}
	}
}

// alarmLinks judges which alarms sound together.
func (c *checking) alarmLinks(p *alarmPlan) {
	for _, link := range [...]struct {
		id   rules.ID
		kind AlarmKind
		with string
	}{{"smoke-link", SmokeAlarm, p.owner.String()}, {"smoke-link-units", SmokeAlarm, "both"}, {"co-link-units", COAlarm, "both"}} {
		if f, ok := c.set.Get(link.id); ok && !f.Yes() {
			c.judged(link.id, true, "each unit's own", about{unit: p.owner.String(), subject: p.owner.String()})
			continue
		}
		if _, asked := p.asks(link.id); !asked {
			continue
		}
		var apart []string
		n := 0
		for _, a := range c.s.Alarms {
			if a.Unit != p.owner.String() && a.Unit != Common.String() || link.kind == COAlarm && !a.Kind.co() || link.kind == SmokeAlarm && !a.Kind.smoke() {
				continue
			}
			n++
			if a.Sounds != link.with && a.Sounds != "both" {
				apart = append(apart, a.ID)
			}
		}
		if n == 0 {
			continue
		}
		provided := fmt.Sprintf("%d to sound together", n)
		if len(apart) > 0 {
			provided = strings.Join(apart, ", ") + " alone"
		}
		c.judged(link.id, len(apart) == 0, provided, about{
			unit: p.owner.String(), subject: p.owner.String(), cure: "link the alarms by wire or radio",
			note: "as the plan has them; an electrician sets them out",
		})
	}
}

// existingAlarms says what is known of the alarms that the house has.
func (c *checking) existingAlarms(u Owner) {
	a := about{unit: u.String(), subject: u.String(), note: "the alarms on the plan are those of a new dwelling", cure: "look for the alarms that are there, their age and wiring"}
	switch c.Alarms {
	case AlarmsNotSaid:
		a.cure = "say in the brief which alarms the house has (`alarms`), and hang those of the plan where they are missing"
		c.unknown("alarm-upgrade", "", a)
	default:
		a.note = "those on the plan take the place of what is there"
		c.judged("alarm-upgrade", true, "new throughout", a)
	}
}

// alarmPlace measures how far an alarm hangs from bathroom doors.
func (c *checking) alarmPlace(a Alarm) {
	if !a.Kind.smoke() {
		return
	}
	p := &alarmPlan{s: c.s, b: c.b, set: c.set, Conditions: c.Conditions}
	nearest, found := 0.0, false
	for _, door := range p.bathDoors(a.Level) {
		if !c.sees(a, door) {
			continue
		}
		if d := door.DistanceTo(a.At); !found || d < nearest {
			nearest, found = d, true
		}
	}
	unit := a.Unit
	if unit == Common.String() {
		unit = ""
	}
	if found {
		c.measured("smoke-bathroom-distance", nearest, about{
			unit: unit, subject: a.ID, note: "nearer only where an alarm that is required could not hang elsewhere",
			cure: "a photoelectric alarm, or a place farther along the ceiling",
		})
	}
}

// sees tells whether a door opens to the cell in which an alarm hangs, or to
// one that is open to it.
func (c *checking) sees(a Alarm, door geom.Segment) bool {
	in := c.b.CellNamed(a.Cell)
	for _, l := range c.b.Links {
		if l.Line != door && !slices.ContainsFunc(c.s.Passages, func(p Passage) bool { return p.Line == door && p.Between == between(c.b, l) }) {
			continue
		}
		for _, end := range [...]int{l.U, l.V} {
			if end == in || end != Outside && slices.ContainsFunc(c.b.Links, func(o Link) bool {
				return o.Kind == LinkOpen && (o.U == in && o.V == end || o.V == in && o.U == end) && c.s.Owners[o.U] == c.s.Owners[o.V]
			}) {
				return true
			}
		}
	}
	return false
}
