package plan

import "moiety/plan/assembly"

// LayerPrices are what the layers of a separating build-up cost per m2, in
// place: by them the cheapest build-up is chosen.
type LayerPrices struct {
	Board, BoardXThin, BoardXThick float64
	SoundBoard                     float64
	Wool                           float64 // of 89 mm; in proportion to the depth
	Studs, Joists, Channel         float64 // at 400 mm; in proportion to how close they stand
	Subfloor, Underlay             float64
	Finish                         float64 // of a face that is touched
	Strip                          float64 // of a layer taken off
	LiftFloor                      float64 // floor finish up and down again
}

var layerEntries = []priceEntry{
	{"layers", "board", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Board }},
	{"layers", "board_x_thin", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.BoardXThin }},
	{"layers", "board_x_thick", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.BoardXThick }},
	{"layers", "sound_board", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.SoundBoard }},
	{"layers", "wool", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Wool }},
	{"layers", "studs", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Studs }},
	{"layers", "joists", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Joists }},
	{"layers", "channel", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Channel }},
	{"layers", "subfloor", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Subfloor }},
	{"layers", "underlay", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Underlay }},
	{"layers", "finish", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Finish }},
	{"layers", "strip", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.Strip }},
	{"layers", "lift_floor", "per_m2", false, func(p *Prices) *float64 { return &p.Layers.LiftFloor }},
}

// layer is what a layer costs per m2. Air costs nothing; solid leaves are not
// built in a conversion and cost nothing either.
func (p *LayerPrices) layer(l assembly.Layer) float64 {
	closeness := 1.0
	if l.Spacing > 0 {
		closeness = assembly.Close / l.Spacing
	}
	switch l.Material {
	case assembly.GypsumRegular:
		return p.Board
	case assembly.GypsumX:
		if l.Thickness < (assembly.ThinBoard+assembly.ThickBoard)/2 {
			return p.BoardXThin
		}
		return p.BoardXThick
	case assembly.SoundBoard:
		return p.SoundBoard
	case assembly.StoneWool, assembly.GlassWool:
		return p.Wool * l.Thickness / assembly.StudDepth
	case assembly.Studs, assembly.SteelStuds:
		return p.Studs * closeness
	case assembly.StaggeredStuds: // two rows share the plates
		return 1.5 * p.Studs * closeness
	case assembly.Joists:
		return p.Joists * closeness
	case assembly.Channel, assembly.Furring:
		return p.Channel * closeness
	case assembly.Subfloor:
		return p.Subfloor
	case assembly.Underlay:
		return p.Underlay
	}
	return 0
}

// Spread is how far a price may lie below and above the figure: factors, Of by
// kind of work where it has its own, in the order of workKinds; zero: not said.
type Spread struct {
	Low, High float64
	Of        [len(workKinds)]struct{ Low, High float64 }
}

var (
	lowLimits  = limits{min: 0, above: true, max: 1}
	highLimits = limits{min: 1, max: 20}
)

func spreadEntries() []priceEntry {
	entries := []priceEntry{
		{"spread", "low", "factor", false, func(p *Prices) *float64 { return &p.Spread.Low }},
		{"spread", "high", "factor", false, func(p *Prices) *float64 { return &p.Spread.High }},
	}
	for i, kind := range workKinds {
		entries = append(entries,
			priceEntry{"spread", kind, "low", false, func(p *Prices) *float64 { return &p.Spread.Of[i].Low }},
			priceEntry{"spread", kind, "high", false, func(p *Prices) *float64 { return &p.Spread.Of[i].High }})
	}
	return entries
}

// Range gives the low and the high cost of a work; a factor that is not said is 1.
func (p *Prices) Range(w Work) (low, high float64) {
	low, high = p.Spread.Low, p.Spread.High
	for i, kind := range workKinds {
		if kind != w.Kind {
			continue
		}
		if of := p.Spread.Of[i].Low; of > 0 {
			low = of
		}
		if of := p.Spread.Of[i].High; of > 0 {
			high = of
		}
	}
	if low == 0 {
		low = 1
	}
	if high == 0 {
		high = 1
	}
	return cents(low * w.Cost), cents(high * w.Cost)
}

// addRanges writes to every work what it costs at the low and at the high end.
func (s *Scheme) addRanges(prices *Prices) {
	for i := range s.Works {
		s.Works[i].Low, s.Works[i].High = prices.Range(s.Works[i])
	}
}

// spread adds up what the works cost at the low and at the high end.
func (s *Scheme) spread() (low, high float64) {
	for _, w := range s.Works {
		low, high = cents(low+w.Low), cents(high+w.High)
	}
	return low, high
}
