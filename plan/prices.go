package plan

import (
	"bytes"
	_ "embed"
	"io"
	"maps"
	"slices"
	"strings"
)

//go:embed data/prices.yaml
var shippedPrices []byte

// Prices is a price file: what each kind of work costs, in Currency, and what
// the terms of the objective that are no works weigh. The shipped figures are
// illustrative, and Note says so.
type Prices struct {
	Note     string
	Currency string

	SeparatingWall SeparatingWallPrice
	UpgradeWall    float64 // per m2 of wall
	UpgradeFloor   float64 // per m2 of floor
	SealDoor       float64 // each
	SealOpening    float64 // each
	CloseStair     CloseStairPrice
	NewDoor        DoorPrice // an inner door through a wall
	NewEntry       DoorPrice // a door to the outdoors
	RemoveWall     float64   // per m2 of wall
	BeamPerM       float64   // of a beam over an opening, with its posts and shoring
	Fence          FencePrice
	NewKitchen     float64 // each, as all below
	NewBathroom    BathroomPrice
	NewPowderRoom  float64
	NewLaundry     float64
	NewFurnace     float64
	NewWaterHeater float64
	FinishSpace    float64 // per m2 of floor of a rough space
	EnlargeWindow  EnlargeWindowPrice
	NewWindow      NewWindowPrice
	WindowWell     float64
	NewPanel       float64
	NewMeter       float64 // of electricity or gas, with its connection
	AddressSet     float64 // number, mailbox and doorbell

	Priorities PriorityPrices
	Layers     LayerPrices
	Spread     Spread
}

// SeparatingWallPrice is that of a new wall between the units.
type SeparatingWallPrice struct {
	PerM2     float64
	Thickness float64 // nominal, metres
}

// CloseStairPrice is that of closing a flight off at one end.
type CloseStairPrice struct {
	Each  float64
	PerM2 float64 // of the wall or floor that closes it
}

// DoorPrice is that of a new door.
type DoorPrice struct {
	Each   float64
	Lintel float64 // more, where the wall bears
	StepsM float64 // more, per metre that steps before it rise or fall; an inner door has none
	// InPlace is instead, a side-hinged door to the outdoors in the place of one
	// that slides; an inner door has none.
	InPlace float64
}

// FencePrice is that of a fence between two pieces of ground.
type FencePrice struct {
	PerM float64
	Gate float64 // each
}

// BathroomPrice is that of a bathroom.
type BathroomPrice struct {
	Each           float64
	FromPowderRoom float64 // instead, where a wc and a basin are there
}

// EnlargeWindowPrice is that of a window made fit to escape by.
type EnlargeWindowPrice struct {
	Each       float64 // the opening cut wider or lower, above the ground
	Replace    float64 // instead, another window in the same opening
	Foundation float64 // instead, the opening cut into a foundation wall
}

// NewWindowPrice is that of a window to escape by where there was none.
type NewWindowPrice struct {
	Each       float64 // above the ground
	Foundation float64 // instead, cut into a foundation wall
}

// PriorityPrices put into money what is no work.
type PriorityPrices struct {
	Balance   float64 // per m2 of heated area off the wanted share
	Walk      float64 // per metre from the parking to the entry
	Noise     float64 // per m2 of a noisy room against a quiet one across the separation
	NoStorage float64 // per unit without storage
}

// priceEntry is one figure of the price file: group.name.key.
type priceEntry struct {
	group, name, key string
	length           bool // metres, not money
	field            func(*Prices) *float64
}

// priceEntries is the price file's whole vocabulary, in its order.
var priceEntries = slices.Concat(figureEntries, layerEntries, spreadEntries())

// figureEntries are the works and the priorities.
var figureEntries = []priceEntry{
	{"works", "separating_wall", "per_m2", false, func(p *Prices) *float64 { return &p.SeparatingWall.PerM2 }},
	{"works", "separating_wall", "thickness", true, func(p *Prices) *float64 { return &p.SeparatingWall.Thickness }},
	{"works", "upgrade_wall", "per_m2", false, func(p *Prices) *float64 { return &p.UpgradeWall }},
	{"works", "upgrade_floor", "per_m2", false, func(p *Prices) *float64 { return &p.UpgradeFloor }},
	{"works", "seal_door", "each", false, func(p *Prices) *float64 { return &p.SealDoor }},
	{"works", "seal_opening", "each", false, func(p *Prices) *float64 { return &p.SealOpening }},
	{"works", "close_stair", "each", false, func(p *Prices) *float64 { return &p.CloseStair.Each }},
	{"works", "close_stair", "per_m2", false, func(p *Prices) *float64 { return &p.CloseStair.PerM2 }},
	{"works", "new_door", "each", false, func(p *Prices) *float64 { return &p.NewDoor.Each }},
	{"works", "new_door", "lintel", false, func(p *Prices) *float64 { return &p.NewDoor.Lintel }},
	{"works", "new_entry", "each", false, func(p *Prices) *float64 { return &p.NewEntry.Each }},
	{"works", "new_entry", "lintel", false, func(p *Prices) *float64 { return &p.NewEntry.Lintel }},
	{"works", "new_entry", "in_place", false, func(p *Prices) *float64 { return &p.NewEntry.InPlace }},
	{"works", "new_entry", "steps_per_m", false, func(p *Prices) *float64 { return &p.NewEntry.StepsM }},
	{"works", "remove_wall", "per_m2", false, func(p *Prices) *float64 { return &p.RemoveWall }},
	{"works", "beam", "per_m", false, func(p *Prices) *float64 { return &p.BeamPerM }},
	{"works", "fence", "per_m", false, func(p *Prices) *float64 { return &p.Fence.PerM }},
	{"works", "fence", "gate", false, func(p *Prices) *float64 { return &p.Fence.Gate }},
	{"works", "new_kitchen", "each", false, func(p *Prices) *float64 { return &p.NewKitchen }},
	{"works", "new_bathroom", "each", false, func(p *Prices) *float64 { return &p.NewBathroom.Each }},
	{"works", "new_bathroom", "from_powder_room", false, func(p *Prices) *float64 { return &p.NewBathroom.FromPowderRoom }},
	{"works", "new_powder_room", "each", false, func(p *Prices) *float64 { return &p.NewPowderRoom }},
	{"works", "new_laundry", "each", false, func(p *Prices) *float64 { return &p.NewLaundry }},
	{"works", "new_furnace", "each", false, func(p *Prices) *float64 { return &p.NewFurnace }},
	{"works", "new_water_heater", "each", false, func(p *Prices) *float64 { return &p.NewWaterHeater }},
	{"works", "finish_space", "per_m2", false, func(p *Prices) *float64 { return &p.FinishSpace }},
	{"works", "new_window", "each", false, func(p *Prices) *float64 { return &p.NewWindow.Each }},
	{"works", "new_window", "foundation", false, func(p *Prices) *float64 { return &p.NewWindow.Foundation }},
	{"works", "enlarge_window", "each", false, func(p *Prices) *float64 { return &p.EnlargeWindow.Each }},
	{"works", "enlarge_window", "replace", false, func(p *Prices) *float64 { return &p.EnlargeWindow.Replace }},
	{"works", "enlarge_window", "foundation", false, func(p *Prices) *float64 { return &p.EnlargeWindow.Foundation }},
	{"works", "window_well", "each", false, func(p *Prices) *float64 { return &p.WindowWell }},
	{"works", "new_panel", "each", false, func(p *Prices) *float64 { return &p.NewPanel }},
	{"works", "new_meter", "each", false, func(p *Prices) *float64 { return &p.NewMeter }},
	{"works", "address_set", "each", false, func(p *Prices) *float64 { return &p.AddressSet }},
	{"priorities", "balance", "per_m2", false, func(p *Prices) *float64 { return &p.Priorities.Balance }},
	{"priorities", "walk", "per_m", false, func(p *Prices) *float64 { return &p.Priorities.Walk }},
	{"priorities", "noise", "per_m2", false, func(p *Prices) *float64 { return &p.Priorities.Noise }},
	{"priorities", "no_storage", "each", false, func(p *Prices) *float64 { return &p.Priorities.NoStorage }},
}

var (
	// A figure beyond any house finds slips; nothing is paid for being built.
	moneyLimits     = limits{min: 0, max: 10_000_000}
	thicknessLimits = limits{min: 0.05, max: 0.60}
)

// bounds are the limits of the figure.
func (e priceEntry) bounds() limits {
	switch {
	case e.group == "spread" && (e.name == "low" || e.key == "low"):
		return lowLimits
	case e.group == "spread":
		return highLimits
	case e.length:
		return thicknessLimits
	}
	return moneyLimits
}

// DefaultPrices returns the shipped price file.
func DefaultPrices() *Prices {
	p := &Prices{}
	if err := p.read(bytes.NewReader(shippedPrices), "prices.yaml"); err != nil {
		panic("plan: the shipped price file: " + err.Error())
	}
	return p
}

// ReadPrices reads a price file strictly; a figure that it leaves out is the
// shipped one, and the shipped note stands as long as one is and the file has
// no note of its own. name is the file's name for messages; what is wrong
// comes as a *Problems, all of it together.
func ReadPrices(r io.Reader, name string) (*Prices, error) {
	p := DefaultPrices()
	if err := p.read(r, name); err != nil {
		return nil, err
	}
	return p, nil
}

func (p *Prices) read(r io.Reader, name string) error {
	problems := &Problems{File: name}
	top, err := readYAML(r, "price file", name, problems)
	if top == nil || err != nil {
		return err
	}
	sc := scope{problems: problems, metre: 1, unit: string(Metres), typed: true}
	if f, ok := sc.object(top, "a price file", "note", "currency", "works", "priorities", "layers", "spread"); ok {
		said := p.readGroup(f, "works") + p.readGroup(f, "priorities") + p.readGroup(f, "layers")
		p.readGroup(f, "spread")
		if note := f.text("note"); note != "" || said == len(figureEntries)+len(layerEntries) {
			p.Note = strings.Join(strings.Fields(note), " ")
		}
		if currency := f.text("currency"); currency != "" {
			p.Currency = currency
		}
	}
	return problems.err()
}

// readGroup reads the works, the priorities, the layers or the spread and
// counts the figures.
func (p *Prices) readGroup(f fields, group string) (said int) {
	n := f.get(group)
	if n == nil || n.kind == nullNode {
		return 0
	}
	entries := map[string][]priceEntry{}
	for _, e := range priceEntries {
		if e.group == group {
			entries[e.name] = append(entries[e.name], e)
		}
	}
	g, ok := f.object(n, group, slices.Sorted(maps.Keys(entries))...)
	if !ok {
		return 0
	}
	for _, m := range g.n.members {
		if len(entries[m.key]) > 0 {
			said += p.readEntry(g, m.key, entries[m.key])
		}
	}
	return said
}

// readEntry reads one kind of work and counts its figures; where there is
// only one, a bare number says it.
func (p *Prices) readEntry(g fields, name string, entries []priceEntry) (said int) {
	n := g.get(name)
	if n == nil {
		return 0
	}
	if n.kind == numberNode && len(entries) == 1 {
		if v, ok := g.numberAt(n, name, entries[0].bounds()); ok {
			*entries[0].field(p) = v
		}
		return 1
	}
	var keys []string
	for _, e := range entries {
		keys = append(keys, e.key)
	}
	f, ok := g.object(n, name, keys...)
	if !ok {
		return 0
	}
	for _, e := range entries {
		if v, ok := f.number(e.key, e.bounds()); ok {
			*e.field(p) = v
			said++
		}
	}
	return said
}
