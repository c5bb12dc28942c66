package plan

import (
	"fmt"

	"moiety/plan/assembly"
)

// beam takes off the preliminary beam over a wall that is opened: its plies,
// each as long as the opening and both bearings, and the studs below its ends.
func (t *takeOff) beam(opening string) {
	for _, o := range t.s.Building.House.Opened {
		if o.ID != opening || o.Beam == nil {
			continue
		}
		b := o.Beam
		length := o.Line.Length() + 2*b.BearingMM/1e3
		t.add("beam plies, preliminary", fmt.Sprintf("%.0f x %.0f x %.0f mm %s", b.WidthMM/float64(b.Plies), b.DepthMM, 1e3*length, b.Material),
			"pieces", float64(b.Plies), 0, byCount)
		t.add(string(assembly.Studs), fmt.Sprintf("38 x %g x %.0f mm", millimetresOf(assembly.StudDepth), 1e3*o.clearHeight()),
			"pieces", float64(2*b.PostStuds), 0, byCount)
	}
}
