package plan

import (
	"io"
	"slices"
	"strconv"
	"strings"
)

// What a brief leaves out.
const (
	defaultBedrooms = 1
	defaultSchemes  = 5
)

// Limits of a brief's numbers: wide enough for any house, to find slips.
var (
	countLimits   = limits{min: 0, max: 50, whole: true}
	schemeLimits  = limits{min: 1, max: 100, whole: true}
	areaLimits    = limits{min: 0, max: 100_000}
	shareLimits   = limits{min: 0, above: true, max: 1}
	percentLimits = limits{min: 0, above: true, max: 100}
	weightLimits  = limits{min: 0, max: 1000}
)

// briefSource is where a brief came from, for messages about what the house
// does not have.
type briefSource struct {
	file  string
	words map[briefWord]*node
}

// briefWord is a word in one of a brief's lists.
type briefWord struct{ unit, key, word string }

// DefaultBrief asks for two units, A and B, of one bedroom or more each, and
// accepts that walk and drive stay shared. Divisible spaces may be divided.
func DefaultBrief() *Brief {
	b := &Brief{
		Share:      []string{string(Walk), string(Drive)},
		Priorities: Priorities{Noise: 1, Balance: 1, Walk: 1},
		Schemes:    defaultSchemes,
		Cuts:       true,
		Return:     ReturnBrief{Running: defaultRunning},
		Conditions: Conditions{Suite: Duplex, Sprinklers: NoSprinklers},
	}
	for i, id := range []string{"A", "B"} {
		b.Units[i] = UnitBrief{ID: id, Name: "Unit " + id, Bedrooms: Range{Min: defaultBedrooms}}
	}
	return b
}

// ReadBrief reads a brief strictly; what it leaves out is as in DefaultBrief.
// Besides the long forms it takes a number for a minimum (bedrooms: 2), a word
// for a list of one, a share in per cent, and units by id (units: {A: …}).
// With cuts: false every space keeps one owner; cuts: true, the default, lets
// halls, living rooms, garages and ground be divided (Building.Cuts). A rule
// file that it names is read by ReadRules and put into the brief by the caller.
// name is the file's name for messages; what is wrong comes as a *Problems,
// all of it together.
func ReadBrief(r io.Reader, name string) (*Brief, error) {
	problems := &Problems{File: name}
	b := DefaultBrief()
	top, err := readYAML(r, "brief", name, problems)
	if err != nil {
		return nil, err
	}
	b.source = briefSource{file: name, words: map[briefWord]*node{}}
	if top == nil {
		return b, nil
	}
	sc := scope{problems: problems, metre: 1, unit: string(Metres), typed: true}
	if f, ok := sc.object(top, "a brief", "units", "share", "leave", "rules", "prices", "priorities", "schemes", "cuts",
		"suite", "sprinklers", "alarms", "fuel", "sleeping_rooms", "services", "open",
		"separation", "build_ups", "return"); ok {
		b.read(f)
	}
	if err := problems.err(); err != nil {
		return nil, err
	}
	return b, nil
}

func (b *Brief) read(f fields) {
	b.readUnits(f)
	if f.get("share") != nil {
		b.Share = b.list(f, "", "share")
	}
	b.Leave = b.list(f, "", "leave")
	b.readRules(f)
	b.readConditions(f)
	b.readServices(f)
	b.readOpen(f)
	b.Prices = f.text("prices")
	if p, ok := f.object(f.get("priorities"), "priorities", "noise", "balance", "walk"); ok {
		setNumber(p, "noise", weightLimits, &b.Priorities.Noise)
		setNumber(p, "balance", weightLimits, &b.Priorities.Balance)
		setNumber(p, "walk", weightLimits, &b.Priorities.Walk)
	}
	b.readSeparation(f)
	b.readReturn(f)
	schemes := float64(b.Schemes)
	setNumber(f, "schemes", schemeLimits, &schemes)
	b.Schemes = int(schemes)
	b.Cuts = f.truth("cuts", b.Cuts)
}

// setNumber keeps what stands there where the key is absent or wrong.
func setNumber(f fields, key string, l limits, into *float64) {
	if v, ok := f.number(key, l); ok {
		*into = v
	}
}

// list reads a list of words and where each stands; words said twice are one.
func (b *Brief) list(f fields, unit, key string) []string {
	var out []string
	for _, n := range f.words(key, true) {
		if !slices.Contains(out, n.text) {
			out = append(out, n.text)
			b.source.words[briefWord{unit, key, n.text}] = n
		}
	}
	return out
}

// readUnits takes a list of one or two units, or an object of them by id.
func (b *Brief) readUnits(f fields) {
	n := f.get("units")
	if n == nil {
		return
	}
	if n.kind == objectNode && (n.get("A") != nil || n.get("B") != nil) {
		if byID, ok := f.object(n, "units", "A", "B"); ok {
			for i := range b.Units {
				if u := byID.get(b.Units[i].ID); u != nil {
					b.readUnit(f.scope, u, i, false)
				}
			}
		}
		b.checkShares(f)
		return
	}
	if n.kind != listNode {
		f.bad(n, "units is a list of one or two units, not %s", n.shown())
		return
	}
	if len(n.items) > 2 {
		f.bad(n.items[2], "a house is parted into two units, A and B; here stands a third")
	}
	var taken [2]*node
	for place, item := range n.items[:min(2, len(n.items))] {
		u, ok := b.unitOf(f, item, place)
		if !ok {
			nobodys := &Brief{source: b.source}
			nobodys.readUnit(f.scope, item, 0, true) // for what else is wrong there
			continue
		}
		if taken[u] != nil {
			f.bad(item, "two units have the id %s; one is A, the other B", b.Units[u].ID)
			continue
		}
		taken[u] = item
		b.readUnit(f.scope, item, u, true)
	}
	b.checkShares(f)
}

// unitOf finds which unit an entry is: by its id, otherwise by its place.
func (b *Brief) unitOf(f fields, item *node, place int) (unit int, ok bool) {
	id := item.get("id")
	if item.kind != objectNode || id == nil || id.kind == nullNode {
		return place, true
	}
	for i, u := range b.Units {
		if id.text == u.ID {
			return i, true
		}
	}
	hint := ""
	if up := strings.ToUpper(id.text); up == "A" || up == "B" {
		hint = "; did you mean " + up + "?"
	}
	f.bad(id, "a unit's id is A or B, not %s (its name may be anything)%s", id.shown(), hint)
	return 0, false
}

func (b *Brief) readUnit(sc scope, n *node, unit int, withID bool) {
	u := &b.Units[unit]
	if u.ID != "" {
		sc.about = "unit " + u.ID
	}
	keys := []string{"name", "bedrooms", "area", "keep", "avoid", "entry_from", "parking", "outdoor", "rent", "sale"}
	if withID {
		keys = append([]string{"id"}, keys...)
	}
	f, ok := sc.object(n, "a unit", keys...)
	if !ok {
		return
	}
	if name := f.text("name"); name != "" {
		u.Name = name
	}
	u.Bedrooms = f.countRange("bedrooms", u.Bedrooms)
	u.Parking = f.countRange("parking", u.Parking)
	if a := f.minimum("area", areaLimits, &u.AreaMin, "min", "share"); a.n != nil {
		u.AreaShare = a.part("share")
	}
	f.minimum("outdoor", areaLimits, &u.OutdoorMin, "min_area")
	u.Rent = f.worth("rent", u.Rent)
	u.Sale = f.worth("sale", u.Sale)
	u.Keep = b.list(f, u.ID, "keep")
	u.Avoid = b.list(f, u.ID, "avoid")
	if u.EntryFrom = f.text("entry_from"); u.EntryFrom != "" {
		b.source.words[briefWord{u.ID, "entry_from", u.EntryFrom}] = f.get("entry_from")
	}
	for _, id := range u.Keep {
		if slices.Contains(u.Avoid, id) {
			f.bad(b.source.words[briefWord{u.ID, "avoid", id}], "%s is to be kept and avoided by the same unit", quoteUnlessPlain(id))
		}
	}
}

// countRange reads {min, max}, or a number for the minimum alone. A maximum
// below the default minimum lowers it.
func (f fields) countRange(key string, r Range) Range {
	var least float64 = float64(r.Min)
	g := f.minimum(key, countLimits, &least, "min", "max")
	r.Min = int(least)
	if most, ok := g.number("max", countLimits); ok {
		r.Max, r.MaxSaid = int(most), true
		switch {
		case r.Min <= r.Max:
		case g.get("min") == nil:
			r.Min = r.Max
		default:
			g.bad(g.get("max"), "%s: max %d is less than min %d", key, r.Max, r.Min)
		}
	}
	return r
}

// minimum reads an object whose first key is a minimum, or that number alone;
// the fields are those of the object, empty where there is none.
func (f fields) minimum(key string, l limits, into *float64, keys ...string) fields {
	n := f.get(key)
	if n == nil {
		return fields{scope: f.scope}
	}
	if n.kind == numberNode {
		if v, ok := f.numberAt(n, key, l); ok {
			*into = v
		}
		return fields{scope: f.scope}
	}
	if n.kind != objectNode {
		f.bad(n, "%s is a number or an object with the %s, not %s", key, keyList(keys), n.shown())
		return fields{scope: f.scope}
	}
	g, _ := f.object(n, key, keys...)
	setNumber(g, keys[0], l, into)
	return g
}

// part reads a part of the whole, 0.5 or 50%; 0 where it is absent or wrong.
func (f fields) part(key string) float64 {
	n := f.get(key)
	if n == nil {
		return 0
	}
	if digits, percent := strings.CutSuffix(strings.TrimSpace(n.text), "%"); percent && n.kind == textNode {
		if v, err := strconv.ParseFloat(strings.TrimSpace(digits), 64); err == nil && v > percentLimits.min && v <= percentLimits.max {
			return v / 100
		}
	}
	if v, err := strconv.ParseFloat(n.text, 64); n.kind == numberNode && err == nil && v > 1 && v <= 100 {
		f.bad(n, "%s is a part of the whole: %s for %s per cent", key, trimmed(v/100), trimmed(v))
		return 0
	}
	v, _ := f.numberAt(n, key, shareLimits)
	return v
}

// checkShares checks that the units' wanted shares leave room for each other.
func (b *Brief) checkShares(f fields) {
	if sum := b.Units[0].AreaShare + b.Units[1].AreaShare; sum > 1+1e-9 {
		f.bad(f.get("units"), "the wanted shares of A and B make %s of the area together; that is more than the whole", trimmed(sum))
	}
}
