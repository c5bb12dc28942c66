package housetest

import (
	"math/rand/v2"
	"slices"

	"moiety/plan"
)

// Demands makes up a brief for a house: every key of a brief comes and goes
// with the seed. leave tells whether features may be named that no work may touch.
func Demands(h *plan.House, seed uint64, leave bool) *plan.Brief {
	r := rand.New(rand.NewPCG(seed, 11))
	chance := func(p float64) bool { return r.Float64() < p }
	b := plan.DefaultBrief()
	b.Schemes = 1
	var rooms, ground []string
	parks := false
	for _, s := range h.Spaces {
		parks = parks || s.Use == plan.Garage || s.Use == plan.Drive || s.Use == plan.Parking
		switch {
		case s.Use.Public():
			ground = append(ground, s.ID, string(s.Use))
		case s.Outdoor:
			ground = append(ground, s.ID)
			rooms = append(rooms, s.ID)
		default:
			rooms = append(rooms, s.ID)
		}
	}
	pick := func(of []string) string { return of[r.IntN(len(of))] }
	outdoor := [...]float64{0, 0, 10, 40}[r.IntN(4)]
	for i := range b.Units {
		u := &b.Units[i]
		u.Bedrooms.Min = [...]int{0, 0, 1, 1, 1, 1, 1, 2}[r.IntN(8)]
		if chance(0.3) {
			u.AreaMin = float64(8 + r.IntN(22))
		}
		if chance(0.25) {
			u.AreaShare = [...]float64{0.3, 0.4, 0.5}[r.IntN(3)]
		}
		if chance(0.25) {
			u.Keep = append(u.Keep, pick(rooms))
		}
		if chance(0.15) {
			u.Avoid = append(u.Avoid, pick(rooms))
		}
		if chance(0.2) && len(ground) > 0 {
			u.EntryFrom = pick(ground)
		}
		if chance(0.3) && parks {
			u.Parking.Min = 1
		}
		if chance(0.3) {
			u.OutdoorMin = outdoor
		}
	}
	if len(b.Units[0].Keep) > 0 && len(b.Units[1].Keep) > 0 && b.Units[0].Keep[0] == b.Units[1].Keep[0] {
		b.Units[1].Keep = nil // a brief that says so is refused
	}
	for _, word := range [...]string{"yard", "hall", "flight", "laundry", "water_heater", "washer", "furnace", "electrical_panel", "mechanical", "living", "bathroom"} {
		if chance(0.12) {
			b.Share = append(b.Share, word)
		}
	}
	b.Share = present(h, b.Share)
	if chance(0.3) {
		b.Share = nil
	}
	if leave && chance(0.5) {
		var features []string
		for _, d := range h.Doors {
			features = append(features, d.ID)
		}
		for _, w := range h.Walls {
			features = append(features, w.ID)
		}
		for _, s := range h.Stairs {
			features = append(features, s.ID)
		}
		features = append(features, rooms...)
		for range 1 + r.IntN(2) {
			b.Leave = append(b.Leave, pick(features))
		}
	}
	b.Priorities.Noise = float64(r.IntN(2))
	b.Priorities.Balance = float64(r.IntN(2))
	if chance(0.5) {
		b.Rules = "none" // else rooms without a window to escape by are no bedrooms
	}
	return b
}

// present drops the flight where the house has none of that id.
func present(h *plan.House, share []string) []string {
	flight := slices.ContainsFunc(h.Stairs, func(s plan.Stair) bool { return s.ID == "flight" })
	return slices.DeleteFunc(share, func(word string) bool { return word == "flight" && !flight })
}
