package assembly

import (
	_ "embed"
	"fmt"
	"slices"
	"strings"
	"sync"

	"moiety/plan/published"
)

//go:embed data/nbc-2020.json
var nbcFile []byte

// The published tables, as transcribed. Left out, because they are no starting
// point of a house or do not tell their layers whole: F2a (steel joists with a
// concrete deck), F10f (I-joists). The IIC of F5a is left out as a likely
// misprint. Floor ratings with special fibre are not used: the notes that name
// the fibre were not read.
var nbc = published.MustDecode[tables](nbcFile)

type tables struct {
	Walls  table `json:"walls"`
	Floors table `json:"floors"`
}

type table struct {
	Source published.Source `json:"source"`
	Rows   []row            `json:"rows"`
}

// row is a row of a table as published: millimetres and minutes. Lists of two
// spacings hold for either. sheets counts the boards of the first face and of
// the second; the resilient channel is on the first. Of a floor there is one
// face, the ceiling; sheets of 1 and 1 are one board before and one behind the channel.
type row struct {
	Number    string    `json:"number"`
	Frame     string    `json:"frame"`
	Spacing   []float64 `json:"spacing_mm"`
	Slab      float64   `json:"slab_mm"`
	Subfloor  []float64 `json:"subfloor_mm"`
	Fill      []float64 `json:"fill_mm"`
	Channel   []float64 `json:"channel_mm"`
	Furring   []float64 `json:"furring_mm"`
	Sheets    []int     `json:"sheets"`
	Board     string    `json:"board"`
	Fire      int       `json:"fire_min"`
	FireStone int       `json:"fire_stone_wool_min"`
	// Nonbearing ratings are those of a wall that carries nothing.
	FireNonbearing      int `json:"fire_nonbearing_min"`
	FireNonbearingStone int `json:"fire_nonbearing_stone_wool_min"`
	FireSpecialFibre    int `json:"fire_special_fibre_min"`
	STC                 int `json:"stc"`
	IIC                 int `json:"iic"`
}

// board is the row's board as a layer.
func (r *row) board() Layer {
	thickness := ThickBoard
	if strings.HasPrefix(r.Board, "12.7") {
		thickness = ThinBoard
	}
	if strings.HasSuffix(r.Board, "Type X") {
		return NewLayer(GypsumX, thickness, 0)
	}
	return NewLayer(GypsumRegular, thickness, 0)
}

// boards is so many of the row's boards.
func (r *row) boards(n int) []Layer {
	var out []Layer
	for range n {
		out = append(out, r.board())
	}
	return out
}

// wall expands a row of the wall table, with framing and channels at the
// spacings given in millimetres. With stone wool in its cavities the table's
// bracketed fire ratings hold, with glass wool the others.
func (r *row) wall(wool Material, spacing, channel float64, source published.Source) Assembly {
	face := r.boards(r.Sheets[0])
	if channel > 0 {
		face = append(face, NewLayer(Channel, ChannelDepth, channel/1000))
	}
	fill := func(n int) []Layer {
		if n >= len(r.Fill) {
			return nil
		}
		return []Layer{NewLayer(wool, r.Fill[n]/1000, 0)}
	}
	var core []Layer
	switch r.Frame {
	case "studs":
		core = append([]Layer{NewLayer(Studs, StudDepth, spacing/1000)}, fill(0)...)
	case "staggered_studs":
		core = append([]Layer{NewLayer(StaggeredStuds, StaggeredDepth, spacing/1000)}, fill(0)...)
	case "steel_studs":
		core = append([]Layer{NewLayer(SteelStuds, SteelStudDepth, spacing/1000)}, fill(0)...)
	case "double_studs":
		stud := NewLayer(Studs, StudDepth, spacing/1000)
		core = append([]Layer{stud}, fill(0)...)
		core = append(core, NewLayer(Air, RowGap, 0), stud)
		core = append(core, fill(1)...)
	default:
		panic("assembly: unknown frame " + r.Frame)
	}
	layers := append(face, core...)
	layers = append(layers, r.boards(r.Sheets[1])...)
	a := Assembly{ID: "nbc-" + r.Number, Kind: Wall, Layers: layers, Rating: r.rating(source)}
	if wool == StoneWool && len(r.Fill) > 0 {
		a.Fire = max(a.Fire, r.FireStone)
		a.FireNonbearing = max(a.FireNonbearing, r.FireNonbearingStone)
	}
	a.Name = fmt.Sprintf("row %s: %s", r.Number, describe(layers))
	return a
}

// floor expands a row of the floor table.
func (r *row) floor(wool Material, spacing, channel float64, source published.Source) Assembly {
	var layers []Layer
	switch r.Frame {
	case "concrete":
		layers = []Layer{NewLayer(Concrete, r.Slab/1000, 0)}
	case "hollow_core":
		layers = []Layer{NewLayer(HollowCore, r.Slab/1000, 0)}
	case "joists":
		for _, t := range r.Subfloor {
			layers = append(layers, NewLayer(Subfloor, t/1000, 0))
		}
		layers = append(layers, NewLayer(Joists, JoistDepth, spacing/1000))
		for _, t := range r.Fill {
			layers = append(layers, NewLayer(wool, t/1000, 0))
		}
		if len(r.Sheets) == 2 {
			layers = append(layers, r.boards(r.Sheets[0])...)
		}
		if channel > 0 {
			layers = append(layers, NewLayer(Channel, ChannelDepth, channel/1000))
		}
		if len(r.Furring) > 0 {
			layers = append(layers, NewLayer(Furring, FurringDepth, r.Furring[0]/1000))
		}
		layers = append(layers, r.boards(r.Sheets[len(r.Sheets)-1])...)
	default:
		panic("assembly: unknown frame " + r.Frame)
	}
	return Assembly{
		ID: "nbc-" + r.Number, Kind: Floor, Layers: layers, Rating: r.rating(source),
		Name: fmt.Sprintf("row %s: %s", r.Number, describe(layers)),
	}
}

func (r *row) rating(source published.Source) Rating {
	return Rating{
		Fire: r.Fire, FireNonbearing: r.FireNonbearing, STC: r.STC, IIC: r.IIC, Row: r.Number, Source: source,
		How: fmt.Sprintf("as published for row %s", r.Number),
	}
}

// wools are the fills that a row may have: the tables say absorptive material.
// F10e asks for rock or slag fibre.
func (r *row) wools() []Material {
	if len(r.Fill) == 0 || r.Number == "F10e" {
		return []Material{StoneWool}
	}
	return []Material{StoneWool, GlassWool}
}

// orNone is a list of one spacing of nothing where there is none.
func orNone(spacings []float64) []float64 {
	if len(spacings) == 0 {
		return []float64{0}
	}
	return spacings
}

// expand gives a row at each of the spacings that it holds for, with either wool.
func (r *row) expand(kind Kind, source published.Source) []Assembly {
	var out []Assembly
	for _, spacing := range orNone(r.Spacing) {
		for _, channel := range orNone(r.Channel) {
			for _, wool := range r.wools() {
				if kind == Wall {
					out = append(out, r.wall(wool, spacing, channel, source))
				} else {
					out = append(out, r.floor(wool, spacing, channel, source))
				}
			}
		}
	}
	return out
}

// publishedRows are all rows of both tables at all their spacings.
var publishedRows = func() []Assembly {
	var out []Assembly
	for i := range nbc.Walls.Rows {
		out = append(out, nbc.Walls.Rows[i].expand(Wall, nbc.Walls.Source)...)
	}
	for i := range nbc.Floors.Rows {
		out = append(out, nbc.Floors.Rows[i].expand(Floor, nbc.Floors.Source)...)
	}
	return out
}()

// Published lists the rows of the published tables, each at every spacing of
// framing and channels that it holds for.
func Published() []Assembly {
	out := make([]Assembly, len(publishedRows))
	copy(out, publishedRows)
	return out
}

// describe names layers in one line, like ones counted.
func describe(layers []Layer) string {
	var parts []string
	for i := 0; i < len(layers); {
		n := 1
		for i+n < len(layers) && layers[i+n] == layers[i] {
			n++
		}
		text := layers[i].String()
		if n > 1 {
			text = fmt.Sprintf("%d x %s", n, text)
		}
		parts = append(parts, text)
		i += n
	}
	return strings.Join(parts, ", ")
}

// Describe names the layers in one line, from the first face to the second.
func (a *Assembly) Describe() string { return describe(a.Layers) }

// ForAnySpacing lists the published rows as they serve where how closely
// framing stands is not known: walls with studs at 400 mm, as rows at 600 mm
// rate no worse; floors whose row holds for joists at 400 and at 600 mm, since
// the closer ones burn better and the wider ones sound better. Steel studs are
// left out: they carry nothing.
func ForAnySpacing() []Assembly { return slices.Clone(forAnySpacing()) }

var forAnySpacing = sync.OnceValue(func() []Assembly {
	var out []Assembly
	for i := range nbc.Walls.Rows {
		r := &nbc.Walls.Rows[i]
		if r.Frame == "steel_studs" || r.Spacing[0] > 1000*Close {
			continue
		}
		for _, channel := range orNone(r.Channel) {
			out = append(out, r.wall(StoneWool, r.Spacing[0], channel, nbc.Walls.Source))
		}
	}
	for i := range nbc.Floors.Rows {
		r := &nbc.Floors.Rows[i]
		if r.Frame != "joists" || len(r.Spacing) < 2 {
			continue
		}
		for _, channel := range orNone(r.Channel) {
			out = append(out, r.floor(StoneWool, r.Spacing[0], channel, nbc.Floors.Source))
		}
	}
	return out
})
