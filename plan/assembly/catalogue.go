package assembly

import (
	"slices"
	"sync"

	"moiety/plan/published"
)

// practice marks a build-up that the trade likes and no table lists.
var practice = published.Source{Standard: "build-up", Status: published.Practice}

// Generic lists build-ups that no table lists, with the ratings that Rate gives
// them.
func Generic() []Assembly { return slices.Clone(generic()) }

var generic = sync.OnceValue(func() []Assembly {
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
})
