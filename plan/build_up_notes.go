package plan

import "moiety/plan/assembly"

// note writes the notes that go with a build-up's detail. They are common
// practice, no source, except where they name one.
func (u *BuildUp) note() {
	switch {
	case u.has(assembly.Flight):
		u.Head = "its frame bears on the walls beside the flight, not on the strings; boards run tight to the walls all round, with a bead of acoustical sealant at the edge of every layer"
		u.Base = "nothing of it touches strings or treads: what is screwed to them carries every step"
		u.Junction = "closed at both ends of the flight, down to the floor or up to the wall that closes the flight off; joints of the layers staggered"
	case u.Assembly.Kind == assembly.Floor:
		u.Head = "boards run tight to the walls all round, with a bead of acoustical sealant at the edge of every layer; joints of the layers staggered"
		u.Base = "floor finish on a resilient underlay cuts footsteps more than anything below it; keep it off the walls"
		u.Junction = "stop the joist bays over separating walls with solid blocking and wool; carry the wall's boards up to the subfloor"
	default:
		u.Head = "boards run to the underside of the floor or roof deck above, through ceiling spaces; a bead of acoustical sealant under every layer, at the top and at the bottom"
		u.Base = "plates on sealant; subfloor cut or topped at the wall where it runs through (NBC Table 9.11.1.4 lists toppings); joist bays under the wall blocked"
		u.Junction = "where the wall meets another, its boards run through and the other is set against them; joints of the layers staggered"
	}
	if u.has(assembly.Channel) {
		u.Junction += "; no screw of the boards may reach the framing behind the channels, and nothing heavy is hung from them"
	}
	u.Penetrations = "boxes of the two sides in different bays, with fire-rated putty pads; pipes, wires and ducts stopped to the rating; no recessed lights; listed systems by the maker's sheet"
}

// has tells whether a layer is of that material.
func (u *BuildUp) has(m assembly.Material) bool {
	for _, l := range u.Layers {
		if l.Material == m {
			return true
		}
	}
	return false
}
