package assembly_test

import (
	"fmt"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"moiety/plan/assembly"
)

// rowsAsPrinted are rows of NBC 2020 Table 9.10.3.1.-A and -B as transcribed
// from the BC government's building-code JSON, put down here a second time by
// hand: number, minutes where it bears, minutes where it does not (walls), STC,
// IIC, and the layers in short, the first face first.
var rowsAsPrinted = []struct {
	id               string
	fire, nonbearing int
	stc, iic         int
	layers           string
}{
	{"nbc-W1c", 30, 45, 32, 0, "r13 | studs 400 89 | r13"},
	{"nbc-W1d", 60, 60, 32, 0, "x16 | studs 400 | x16"},
	{"nbc-W2a", 90, 120, 38, 0, "x16 x16 | studs 400 89 | x16 x16"},
	{"nbc-W2b", 60, 90, 38, 0, "x13 x13 | studs 400 89 | x13 x13"},
	{"nbc-W3a", 45, 60, 45, 0, "x16 channel 400 | studs 400 89 | x16"},
	{"nbc-W3b", 45, 60, 48, 0, "x16 channel 400 | studs 600 89 | x16"},
	{"nbc-W4a", 60, 90, 51, 0, "x16 x16 channel 400 | studs 400 89 | x16"},
	{"nbc-W4c", 60, 60, 49, 0, "x13 x13 channel 400 | studs 400 89 | x13"},
	{"nbc-W5a", 45, 60, 51, 0, "x16 channel 400 | studs 400 89 | x16 x16"},
	{"nbc-W6d", 90, 120, 58, 0, "x16 x16 channel 600 | studs 400 89 | x16 x16"},
	{"nbc-W6j", 60, 90, 46, 0, "x13 x13 channel 400 | studs 400 | x13 x13"},
	{"nbc-W8a", 60, 90, 52, 0, "x16 x16 | staggered 400 89 | x16"},
	{"nbc-W13b", 60, 60, 57, 0, "x13 | studs 400 89 air studs 400 89 | x13"},
	{"nbc-W14c", 60, 60, 57, 0, "x16 x16 | studs 400 89 air studs 400 | x16"},
	{"nbc-W15a", 90, 120, 66, 0, "x16 x16 | studs 400 89 air studs 400 89 | x16 x16"},
	{"nbc-S1b", 0, 60, 39, 0, "x16 | steel 400 65 | x16"},
	{"nbc-F1b", 120, 0, 52, 27, "| concrete 130 |"},
	{"nbc-F3f", 0, 0, 29, 28, "panel 16 | joists 400 150 | r13"},
	{"nbc-F4c", 45, 0, 35, 34, "panel 16 | joists 400 150 | x16 x16"},
	{"nbc-F6h", 45, 0, 43, 36, "panel 16 | joists 400 150 | furring 600 x13 x13"},
	{"nbc-F7c", 60, 0, 35, 27, "panel 16 | joists 400 | x13 channel 400 x13"},
	{"nbc-F8c", 30, 0, 48, 41, "panel 16 | joists 400 150 | channel 400 x16"},
	{"nbc-F9c", 60, 0, 52, 46, "panel 16 | joists 400 150 | channel 400 x16 x16"},
	{"nbc-F9h", 45, 0, 53, 47, "panel 16 | joists 400 150 | channel 600 x13 x13"},
	{"nbc-F10e", 60, 0, 53, 44, "panel 11 panel 16 | joists 400 235 | channel 400 x16"},
}

// short puts layers as rowsAsPrinted does.
func short(a assembly.Assembly) string {
	names := map[assembly.Material]string{
		assembly.GypsumRegular: "r%.0f", assembly.GypsumX: "x%.0f", assembly.Studs: "studs", assembly.StaggeredStuds: "staggered",
		assembly.SteelStuds: "steel", assembly.Joists: "joists", assembly.Air: "air", assembly.Channel: "channel",
		assembly.Furring: "furring", assembly.Subfloor: "panel %.0f", assembly.StoneWool: "%.0f", assembly.Concrete: "concrete %.0f",
	}
	text, inCore := "", false
	last := 0
	for i, l := range a.Layers {
		if l.Material.IsFrame() || l.Material.IsSolid() || l.Material.IsFill() {
			last = i
		}
	}
	for i, l := range a.Layers {
		core := l.Material.IsFrame() || l.Material.IsSolid()
		if core && !inCore {
			text, inCore = text+" |", true
		}
		name := names[l.Material]
		if l.Spacing > 0 {
			name += fmt.Sprintf(" %.0f", 1000*l.Spacing)
		} else if l.Material != assembly.Air {
			name = fmt.Sprintf(name, 1000*l.Thickness)
		}
		text += " " + name
		if i == last {
			text += " |"
		}
	}
	return text[1:]
}

func TestPublishedRowsAreAsPrinted(t *testing.T) {
	byID := map[string]assembly.Assembly{}
	for _, a := range assembly.Published() {
		if _, seen := byID[a.ID]; !seen {
			byID[a.ID] = a
		}
	}
	for _, want := range rowsAsPrinted {
		a, ok := byID[want.id]
		if !assert.True(t, ok, want.id) {
			continue
		}
		assert.Equal(t, []int{want.fire, want.nonbearing, want.stc, want.iic}, []int{a.Fire, a.FireNonbearing, a.STC, a.IIC}, want.id)
		assert.Equal(t, want.layers, short(a), want.id)
		assert.False(t, a.FireEstimated || a.SoundEstimated, want.id)
	}
}

// The likely misprint of row F5a, IIC 37 among neighbours of 26 and 30, is not used.
func TestALikelyMisprintIsLeftOut(t *testing.T) {
	for _, a := range assembly.Published() {
		if a.Row == "F5a" {
			assert.Zero(t, a.IIC)
			assert.Equal(t, 35, a.STC)
		}
	}
}

func TestEveryPublishedRowRatesAsItself(t *testing.T) {
	for _, a := range assembly.Published() {
		r := assembly.Rate(a)
		if a.Layers[0].Material.IsSolid() {
			continue // the mass law may rate concrete higher; see the next test
		}
		assert.GreaterOrEqual(t, r.Fire, a.Fire, a.ID)
		assert.Equal(t, a.STC, r.STC, a.Name)
		assert.False(t, r.FireEstimated, a.Name)
	}
}

// Common practice, no source: stone-wool batts in the cavity, a sound board and
// two sheets on each side. It contains rows W2a (two sheets of 15.9 mm Type X on
// each side, filled: 90 min, 120 min where nothing bears on it, STC 38) and, on
// channels, W6d (STC 58).
func TestTheSoundBoardWallIsRatedByTheRowThatItContains(t *testing.T) {
	byID := map[string]assembly.Assembly{}
	for _, a := range assembly.Generic() {
		byID[a.ID] = a
		assert.True(t, a.FireEstimated && a.SoundEstimated, "no table lists %s", a.ID)
		assert.Contains(t, a.How, "common practice, no source")
	}
	wall := byID["sound-board"]
	assert.Equal(t, []int{90, 120, 38}, []int{wall.Fire, wall.FireNonbearing, wall.STC})
	assert.InDelta(t, 4*0.0159+2*0.0127+0.089, wall.Thickness(), 1e-9)
	assert.Equal(t, 58, byID["sound-board-channel"].STC)
	assert.Equal(t, "W6d", byID["sound-board-channel"].Row)
}

func TestWhatAChannelMustNotHaveBehindIt(t *testing.T) {
	x := assembly.NewLayer(assembly.GypsumX, assembly.ThickBoard, 0)
	old := assembly.NewLayer(assembly.GypsumRegular, assembly.ThinBoard, 0)
	channel := assembly.NewLayer(assembly.Channel, assembly.ChannelDepth, assembly.Close)
	studs := assembly.NewLayer(assembly.Studs, assembly.StudDepth, assembly.Close)
	wool := assembly.NewLayer(assembly.StoneWool, assembly.StudDepth, 0)
	free := assembly.Rate(assembly.Assembly{Kind: assembly.Wall, Layers: []assembly.Layer{x, x, channel, studs, wool, x}})
	overBoard := assembly.Rate(assembly.Assembly{Kind: assembly.Wall, Layers: []assembly.Layer{x, x, channel, old, studs, wool, x}})
	assert.Equal(t, "W4a", free.Row)
	assert.Empty(t, overBoard.Row)
	assert.Less(t, overBoard.STC, free.STC)
	// On the other side the old board may stay under the new one.
	kept := assembly.Rate(assembly.Assembly{Kind: assembly.Wall, Layers: []assembly.Layer{x, x, channel, studs, wool, old, x}})
	assert.Equal(t, []int{60, 51}, []int{kept.Fire, kept.STC})
	assert.True(t, kept.FireEstimated)
}

func TestGlassWoolDoesNotEarnTheBracketedFireRating(t *testing.T) {
	for _, a := range assembly.Published() {
		if a.Row != "W4c" {
			continue
		}
		want := 45
		for _, l := range a.Layers {
			if l.Material == assembly.StoneWool {
				want = 60
			}
		}
		assert.Equal(t, want, a.Fire, a.Name)
	}
}

func TestOneMoreSheetNeverRatesLower(t *testing.T) {
	rows := assembly.Published()
	rapid.Check(t, func(t *rapid.T) {
		a := rows[rapid.IntRange(0, len(rows)-1).Draw(t, "row")]
		sheet := rapid.SampledFrom([]assembly.Layer{
			assembly.NewLayer(assembly.GypsumRegular, assembly.ThinBoard, 0),
			assembly.NewLayer(assembly.GypsumX, assembly.ThickBoard, 0),
		}).Draw(t, "sheet")
		before := assembly.Rate(a)
		more := a.With(append(append([]assembly.Layer{}, a.Layers...), sheet)...)
		after := assembly.Rate(more)
		if after.Fire < before.Fire || after.FireNonbearing < before.FireNonbearing || after.STC < before.STC || after.IIC < before.IIC {
			t.Fatalf("%s: %+v with a sheet more %+v", a.Name, before, after)
		}
		if after.Fire > before.Fire && !after.FireEstimated && after.Row == before.Row {
			t.Fatalf("a rating that no row prints is not marked: %+v", after)
		}
	})
}

func TestAWallRatesTheSameFromEitherSide(t *testing.T) {
	for _, a := range assembly.Published() {
		if a.Kind == assembly.Wall {
			back := assembly.Rate(a.Flipped())
			require.Equal(t, a.STC, back.STC, a.Name)
			require.InDelta(t, a.Thickness(), func() float64 { f := a.Flipped(); return f.Thickness() }(), 1e-9)
		}
	}
}

// 15.9 mm boards 11.0 kg/m2 each and 2.8 kg/m2 of wool, as sound.json's masses
// have them; studs of 38 x 89 at 400 mm: 0.038 x 0.089 / 0.4 x 450 kg/m3 = 3.8 kg/m2.
func ExampleAssembly_Mass() {
	for _, a := range assembly.Published() {
		if a.ID == "nbc-W2a" {
			fmt.Printf("%s\n%.0f mm, %.0f kg/m2, %d min, STC %d (%s)\n", a.Describe(), 1000*a.Thickness(), a.Mass(), a.Fire, a.STC, a.Source)
			break
		}
	}
	// Output:
	// 2 x 15.9 mm Type X gypsum board, 89 mm wood studs at 400 mm, 89 mm stone-wool batts, 2 x 15.9 mm Type X gypsum board
	// 153 mm, 50 kg/m2, 90 min, STC 38 (NBC Table 9.10.3.1.-A (2020, as in BCBC 2024))
}
