package assembly

import (
	"fmt"

	"moiety/plan/published"
)

// practice marks a build-up that the trade likes and no table lists.
var practice = published.Source{Standard: "build-up", Status: published.Practice}

// Generic lists build-ups that no table lists, with the ratings that Rate gives
// them.
func Generic() []Assembly {
	x := NewLayer(GypsumX, ThickBoard, 0)
	thin := NewLayer(GypsumX, ThinBoard, 0)
	sound := NewLayer(SoundBoard, SoundBoardDepth, 0)
	studs := NewLayer(Studs, StudDepth, Close)
	wool := NewLayer(StoneWool, StudDepth, 0)
	named := func(id, name string, kind Kind, layers ...Layer) Assembly {
		a := Assembly{ID: id, Name: name, Kind: kind, Layers: layers}
		a.Rating = Rate(a)
		a.How = practice.String() + "; " + a.How
		return a
	}
	return []Assembly{
		named("sound-board", "stone-wool batts, a sound board and two sheets of 15.9 mm Type X board on each side", Wall,
			x, x, sound, studs, wool, sound, x, x),
		named("sound-board-thin", "stone-wool batts, a sound board and two sheets of 12.7 mm Type X board on each side", Wall,
			thin, thin, sound, studs, wool, sound, thin, thin),
		named("sound-board-channel", "the same on resilient channels on one side", Wall,
			x, x, sound, NewLayer(Channel, ChannelDepth, Wide), studs, wool, sound, x, x),
		named("underlay-floor", "joists filled, two sheets of 15.9 mm Type X board on resilient channels, a resilient underlay and a second subfloor panel", Floor,
			NewLayer(Subfloor, 0.011, 0), NewLayer(Underlay, 0.010, 0), NewLayer(Subfloor, 0.0155, 0),
			NewLayer(Joists, JoistDepth, Close), NewLayer(StoneWool, 0.150, 0), NewLayer(Channel, ChannelDepth, Close), x, x),
	}
}

// ExistingWall is a stud wall of a house as it stands, of that thickness
// between its faces: studs with a sheet of 12.7 mm board on each side and
// nothing between (common practice, no source). The studs are taken to stand
// at 400 mm: of the published rows those at 600 mm rate no worse.
func ExistingWall(thickness float64) Assembly {
	board := NewLayer(GypsumRegular, ThinBoard, 0)
	depth := max(thickness-2*ThinBoard, 0)
	a := Assembly{
		ID: "existing-wall", Kind: Wall, Name: fmt.Sprintf("stud wall, %.0f mm, a sheet of board on each side", 1000*thickness),
		Layers: []Layer{board, NewLayer(Studs, depth, Close), board},
	}
	a.Rating = Rate(a)
	return a
}

// ExistingFloor is a joist floor of a house as it stands, of that thickness
// from the ceiling's face to the floor's: a subfloor panel, joists and, where
// the room below is finished, a sheet of 12.7 mm board (common practice, no
// source).
func ExistingFloor(thickness float64, ceiling bool) Assembly {
	panel := NewLayer(Subfloor, 0.0155, 0)
	depth := thickness - panel.Thickness
	layers := []Layer{panel}
	if ceiling {
		depth -= ThinBoard
	}
	layers = append(layers, NewLayer(Joists, max(depth, 0), Close))
	if ceiling {
		layers = append(layers, NewLayer(GypsumRegular, ThinBoard, 0))
	}
	a := Assembly{ID: "existing-floor", Kind: Floor, Name: fmt.Sprintf("joist floor, %.0f mm", 1000*thickness), Layers: layers}
	a.Rating = Rate(a)
	return a
}
