package plan

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"moiety/geom"
	"moiety/plan/rules"
	"moiety/plan/services"
)

// Service is something that a unit, or both, are supplied with: how much, and
// how that was worked out.
type Service struct {
	Unit string // "A", "B" or "" for both
	Kind string // heating, hot_water, electrical, ventilation or drainage
	// Answer says in words what it comes to.
	Answer string
	services.Result
	// Notes are what was assumed or is to be looked at.
	Notes []string
}

// family is the family of codes that a rule set belongs to: "us", "ca" or "uk".
// A set of one's own belongs to that of the set it builds on; otherwise it is "us".
func family(set *rules.Set) string {
	if set != nil {
		for _, id := range []string{set.ID, set.Base} {
			for _, known := range []string{"us", "ca", "uk"} {
				if strings.HasPrefix(id, known+"-") {
					return known
				}
			}
		}
	}
	return "us"
}

// supply is a scheme whose services are being worked out.
type supply struct {
	s        *Scheme
	given    ServicesBrief
	family   string
	envelope [2]envelope
	heatW    [2]float64
}

// Supplies works out heat, hot water, power, air and drains of both units of a
// scheme, each by a published method of the rule set's family of codes.
func Supplies(s *Scheme, set *rules.Set) ([]Service, error) {
	y := supply{s: s, given: s.Brief.completed(), family: family(set)}
	var all []Service
	for u := range s.Units {
		var err error
		if y.envelope[u], err = s.envelopeOf(Owner(u)); err != nil {
			return nil, err
		}
		heat, err := y.heating(u)
		if err != nil {
			return nil, err
		}
		all = append(all, heat)
	}
	water, err := y.hotWater()
	if err != nil {
		return nil, err
	}
	all = append(all, water...)
	all = append(all, y.electrical()...)
	for u := range s.Units {
		all = append(all, y.ventilation(u))
	}
	for u := range s.Units {
		all = append(all, y.drainage(u))
	}
	return all, nil
}

func (y *supply) heating(u int) (Service, error) {
	elements, air := y.envelope[u].elements(y.given)
	load, err := services.HeatLoad(elements, air)
	if err != nil {
		return Service{}, fmt.Errorf("plan: unit %s: %w", Owner(u), err)
	}
	y.heatW[u] = load.Value
	least, most := services.Furnace(load.Value)
	out := Service{
		Unit: Owner(u).String(), Kind: "heating", Result: load,
		Answer: fmt.Sprintf("load %.1f kW: an output of %.1f to %.1f kW", load.Value/1e3, least/1e3, most/1e3),
		Notes:  []string{fmt.Sprintf("indoors %g degC, outdoors %g degC; U-values and air of a house built in %d where the brief gives none", *y.given.InsideC, *y.given.OutsideC, y.given.Built)},
	}
	if _, known := y.s.Building.grade(); !known {
		out.Notes = append(out.Notes, "the ground's elevation was not surveyed: no wall is taken to stand against the earth")
	}
	return out, nil
}

// tankTolerance is how much less than the size asked a tank may hold and still
// be taken as that size: sizes are nominal (common practice, no source).
const tankTolerance = 0.02

func (y *supply) household(u int) services.Household {
	return services.Household{Bedrooms: max(y.s.Units[u].Bedrooms, 1), Bathrooms: max(y.s.Units[u].Bathrooms, 1)}
}

// tank is the litres of the largest water heater that is a unit's, or anybody's where unit is "".
func (y *supply) tank(unit string) (litres float64) {
	for _, f := range y.s.Fixtures {
		if f.Use == "water_heater" && f.State == Kept && (unit == "" || f.Unit == unit) {
			litres = max(litres, f.CapacityL, y.given.TankL)
		}
	}
	if unit == "" {
		litres = max(litres, y.given.TankL)
	}
	return litres
}

func (y *supply) hotWater() ([]Service, error) {
	if y.family == "uk" {
		return y.englishHotWater(), nil
	}
	var all []Service
	for u := range y.s.Units {
		home := y.household(u)
		out := Service{Unit: Owner(u).String(), Kind: "hot_water"}
		asked, err := services.FirstHour(services.BusiestHour(home.Bedrooms), services.CurrentWorksheet)
		if err != nil {
			return nil, fmt.Errorf("plan: unit %s: %w", Owner(u), err)
		}
		tank, ok := services.SharedTank([]services.Household{home}, y.given.HotWater)
		out.Result = tank.Result
		out.Answer = fmt.Sprintf("a tank of its own of %s, first-hour rating %.0f l or more", litres(tank.StorageL), asked.Value)
		if !ok {
			out.Result = asked
			out.Answer = fmt.Sprintf("first-hour rating %.0f l or more; the table of tanks does not reach this unit", asked.Value)
		} else if there := y.tank(out.Unit); there > 0 {
			out.Answer += "; " + enough(there, tank.StorageL)
		}
		if y.family == "ca" {
			out.Notes = append(out.Notes, noCanadianTank)
		}
		all = append(all, out)
	}
	shared := Service{Kind: "hot_water"}
	tank, ok := services.SharedTank([]services.Household{y.household(0), y.household(1)}, y.given.HotWater)
	if !ok {
		return all, nil
	}
	house, two := services.PracticeTanks()
	shared.Result = tank.Result
	shared.Answer = "one tank for both, where it is shared: " + litres(tank.StorageL)
	shared.Notes = append(shared.Notes, fmt.Sprintf("a house tank of about %.0f l typically becomes about %.0f l for two suites: common practice, no source", house, two))
	if there := y.tank(""); there > 0 {
		shared.Answer += "; " + enough(there, tank.StorageL)
	}
	if y.family == "ca" {
		shared.Notes = append(shared.Notes, noCanadianTank)
	}
	return append(all, shared), nil
}

// noCanadianTank says whose figures stand in.
const noCanadianTank = "no Canadian table of tanks was at hand: the US one stands in"

// litres gives a volume with its gallons: 250 l (66 gal).
func litres(l float64) string {
	const perGallon = 3.785411784
	return fmt.Sprintf("%.0f l (%.0f gal)", l, l/perGallon)
}

func enough(there, asked float64) string {
	if there >= asked*(1-tankTolerance) {
		return fmt.Sprintf("the tank of %.0f l that is there is enough", there)
	}
	return fmt.Sprintf("the tank of %.0f l that is there is too small", there)
}

// dwelling is a unit as the electrical methods see it.
func (y *supply) dwelling(u int) services.Dwelling {
	e := y.envelope[u]
	return services.Taken(e.heatedM2, e.basementM2, y.heatW[u], y.given.Heat, y.given.HotWater)
}

// enoughService says whether a service in amperes that is there carries what is asked; "" where none was said.
func (y *supply) enoughService(amps float64) string {
	there := y.given.ServiceA
	if there == 0 {
		return ""
	}
	word := "enough"
	if amps > there {
		word = "too small"
	}
	return fmt.Sprintf("; the service of %.0f A that is there is %s", there, word)
}

func (y *supply) electrical() []Service {
	if y.family == "uk" {
		return y.englishElectrical()
	}
	a, b := y.dwelling(0), y.dwelling(1)
	assumed := "taken to be there: a 12 kW range, a 5 kW dryer and a dishwasher; a tank where hot water is electric"
	var all []Service
	for u, d := range []services.Dwelling{a, b} {
		out := Service{Unit: Owner(u).String(), Kind: "electrical", Notes: []string{assumed}}
		if y.family == "ca" {
			out.Result = services.CanadianLoad(d)
		} else {
			out.Result = services.OptionalLoad(d)
			standard := services.StandardLoad(d)
			out.Notes = append(out.Notes,
				fmt.Sprintf("by the standard method %.0f VA", standard.Value),
				fmt.Sprintf("at least %d lighting circuits of 15 A", services.LightingCircuits(d.AreaM2)))
		}
		out.Answer = "a panel of its own " + y.sized(out.Result)
		all = append(all, out)
	}
	both := Service{Kind: "electrical", Notes: []string{"two meters, one for each unit: the utility says where"}}
	if y.family == "ca" {
		both.Result = services.CanadianTwo(a, b)
	} else {
		both.Result = services.TwoDwellings(a, b)
	}
	both.Answer = "one service for both " + y.sized(both.Result) + y.enoughService(services.Amps(both.Value))
	return append(all, both)
}

// sized gives a load and the service that carries it.
func (y *supply) sized(load services.Result) string {
	carries := "beyond the sizes listed here"
	amps, ok := services.Service(load.Value)
	if y.family == "ca" {
		amps, ok = services.Panel(services.Amps(load.Value))
	}
	if ok {
		carries = fmt.Sprintf("of %.0f A", amps)
	}
	return fmt.Sprintf("%s (%.0f %s, %.0f A at 240 V)", carries, load.Value, load.Unit, services.Amps(load.Value))
}

func (y *supply) ventilation(u int) Service {
	bedrooms := y.s.Units[u].Bedrooms
	out := Service{Unit: Owner(u).String(), Kind: "ventilation"}
	if y.family == "uk" {
		out.Result = services.EnglishVentilation(y.envelope[u].heatedM2, bedrooms)
		out.Answer = fmt.Sprintf("%.0f l/s all the time", math.Ceil(out.Value-1e-9))
		return out
	}
	if y.family == "ca" {
		if least, most, fan, ok := services.PrincipalFan(bedrooms); ok {
			out.Result, out.Answer = fan, fmt.Sprintf("a principal fan of %.0f to %.0f l/s", least, most)
			return out
		}
	}
	out.Result = services.Ventilation(y.envelope[u].heatedM2, bedrooms)
	out.Answer = fmt.Sprintf("%.0f l/s all the time", math.Ceil(out.Value))
	return out
}

// roomFixtures are what a room is taken to hold whose fixtures were not drawn.
var roomFixtures = []struct {
	room     Use
	tells    []string // any of these was drawn: the room's fixtures were
	fixtures []string
}{
	{Kitchen, []string{"sink"}, []string{"sink"}},
	{Bathroom, []string{"wc", "basin", "bath", "shower"}, []string{"wc", "basin", "bath"}},
	{PowderRoom, []string{"wc", "basin"}, []string{"wc", "basin"}},
	{Laundry, []string{"washer"}, []string{"washer"}},
}

// drained lists what drains in a unit and where.
func (y *supply) drained(u Owner) (counts services.Fixtures, at []PlacedFixture, assumed []string) {
	counts = services.Fixtures{}
	standsIn := map[int][]string{}
	b := y.s.Building
	for _, f := range y.s.Fixtures {
		if f.Unit != u.String() || f.State == Removed {
			continue
		}
		if slices.Contains([]string{"wc", "basin", "bath", "shower", "sink", "washer", "dishwasher"}, f.Use) {
			counts[f.Use]++
			at = append(at, f)
			if c := y.s.cellAt(f.Level, f.centre()); c != Outside {
				standsIn[c] = append(standsIn[c], f.Use)
			}
		}
	}
	for c := range b.Cells {
		if y.s.Owners[c] != u || b.Cells[c].Outdoor || b.Cells[c].isPiece() && !b.lead(c) {
			continue
		}
		for _, room := range roomFixtures {
			is := y.s.Uses[c] == room.room || slices.Contains(y.s.Also[c], room.room)
			if !is || slices.ContainsFunc(standsIn[c], func(use string) bool { return slices.Contains(room.tells, use) }) {
				continue
			}
			for _, use := range room.fixtures {
				counts[use]++
			}
			assumed = append(assumed, b.Cells[c].ID)
		}
	}
	return counts, at, assumed
}

// cellAt is the indoor cell of a level that holds a point; Outside where none does.
func (s *Scheme) cellAt(level int, p geom.Pt) int {
	for c := range s.Building.Cells {
		cell := &s.Building.Cells[c]
		if cell.Level == level && !cell.Outdoor && !cell.Flight && cell.Region.Contains(p) >= geom.Border {
			return c
		}
	}
	return Outside
}

func (y *supply) drainage(u int) Service {
	counts, at, assumed := y.drained(Owner(u))
	out := Service{Unit: Owner(u).String(), Kind: "drainage"}
	if y.family == "uk" {
		out.Result = services.EnglishDrainage(counts)
		out.Answer = fmt.Sprintf("%.1f l/s", out.Value)
		if counts["wc"] > 0 {
			out.Answer += ": a drain of 100 mm, since a WC is on it"
			out.Notes = append(out.Notes, "the size by Approved Document H, from memory")
		}
	} else {
		code := services.IRC
		if y.family == "ca" {
			code = services.NPC
			out.Notes = append(out.Notes, "the branch by the IRC's table, which allows no more on a pipe than the NPC's, from memory")
		}
		out.Result = services.Drainage(counts, code)
		out.Answer = fmt.Sprintf("%g fixture units", out.Value)
		if inches, ok := services.Branch(out.Value, counts["wc"] > 0); ok && out.Value > 0 {
			out.Answer += fmt.Sprintf(": a drain of %.0f mm (%g in)", inches*inch*1e3, inches)
		}
	}
	if len(assumed) > 0 {
		out.Notes = append(out.Notes, "fixtures not drawn are taken as usual in "+strings.Join(assumed, ", "))
	}
	if note := y.farthest(at); note != "" {
		out.Notes = append(out.Notes, note)
	}
	return out
}

// farthest says which fixture lies farthest from a stack, on plan.
func (y *supply) farthest(at []PlacedFixture) string {
	var stacks []Fixture
	for _, f := range y.s.Building.House.Fixtures {
		if f.Use == "drain_stack" {
			stacks = append(stacks, f)
		}
	}
	if len(stacks) == 0 {
		return "no stack was surveyed"
	}
	farthest, from, to := -1.0, "", ""
	for _, f := range at {
		nearest := slices.MinFunc(stacks, func(p, q Fixture) int {
			return cmp.Or(cmp.Compare(f.centre().Distance(p.centre()), f.centre().Distance(q.centre())), cmp.Compare(p.ID, q.ID))
		})
		if d := f.centre().Distance(nearest.centre()); d > farthest {
			farthest, from, to = d, f.ID, nearest.ID
		}
	}
	if farthest < 0 {
		return ""
	}
	return fmt.Sprintf("%s lies farthest from a stack: %.1f m on plan from %s", from, farthest, to)
}
