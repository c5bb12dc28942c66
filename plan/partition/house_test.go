package partition_test

import (
	"fmt"
	"math/rand/v2"

	"moiety/plan/partition"
)

// houseLike makes up a house of about the given number of cells: halls with
// rooms on one to three levels, stairs, a garage, a drive, yards and a street,
// with everything a unit needs. Its prices are of the order of real ones, in
// cents; nothing in it is surveyed.
func houseLike(seed uint64, size int) *partition.Problem {
	r := rand.New(rand.NewPCG(seed, 2))
	chance := func(percent int) bool { return r.IntN(100) < percent }
	dollars := func(least, most int) partition.Money { return partition.Money(100 * (least + r.IntN(most-least+1))) }
	const both = partition.LabelSet(1<<partition.A | 1<<partition.B)
	functions := []string{"kitchen", "bathroom", "laundry", "heat", "living", "bedroom", "parking", "outdoor"}
	p := &partition.Problem{Name: fmt.Sprintf("house %d/%d", seed, size), ShareMax: 1000}
	for _, f := range functions {
		p.Functions = append(p.Functions, partition.Function{Name: f})
	}
	// What each kind of room has, and what it could be made into.
	has := map[string]string{"kitchen": "kitchen", "bath": "bathroom", "utility": "laundry heat", "living": "living",
		"bed": "bedroom", "drive": "parking outdoor", "yard": "outdoor", "garage": "parking", "family": "living"}
	level := map[int]int{}
	add := func(kind string, on int, c partition.Cell) int {
		c.Name = fmt.Sprintf("%s-%d", kind, len(p.Cells))
		c.Distinct = kind != "closet"
		if c.Allowed == 0 {
			c.Allowed = both
		}
		for _, f := range functions {
			h := partition.Impossible
			indoor := !c.Public && !c.Outdoor && !c.Detached
			switch {
			case c.Public:
			case contains(has[kind], f):
				h = 0
			case !indoor || kind == "closet" || kind == "stair":
			case f == "kitchen" && kind != "bath" && chance(50):
				h = dollars(9000, 15000)
			case f == "bathroom" && chance(40):
				h = dollars(8000, 14000)
			case f == "laundry" && chance(60):
				h = dollars(900, 2500)
			case f == "heat" && chance(50):
				h = dollars(3000, 7000)
			case f == "living" && !c.DeadEnd && kind != "hall":
				h = dollars(0, 500)
			case f == "bedroom" && kind != "hall" && kind != "bath" && chance(40):
				h = dollars(500, 4000)
			}
			c.Host = append(c.Host, h)
		}
		if c.Capacity == 0 {
			c.Capacity = 2
		}
		p.Cells = append(p.Cells, c)
		level[len(p.Cells)-1] = on
		return len(p.Cells) - 1
	}
	link := func(u, v int, l partition.Link) {
		l.U, l.V = u, v
		if l.Door == 0 && !l.Open {
			l.Door = partition.Impossible
		}
		l.SepCommon = l.Sep / 2
		if chance(50) {
			l.SepCommon = l.Sep
		}
		p.Links = append(p.Links, l)
	}
	shared := func(kind string) partition.Cell {
		c := partition.Cell{Allowed: partition.Any, Common: partition.Price{Shared: 1, Money: dollars(0, 300)}}
		if kind == "drive" {
			c.Common.Shared = 0
		}
		return c
	}
	street := add("street", 0, partition.Cell{Public: true})
	drive := shared("drive")
	drive.Outdoor = true
	driveway := add("drive", 0, drive)
	link(street, driveway, partition.Link{Open: true})
	var yards []int
	for range 1 + size/16 {
		y := add("yard", 0, partition.Cell{Outdoor: true})
		to := driveway
		if len(yards) > 0 && chance(50) {
			to = yards[len(yards)-1]
		}
		link(to, y, partition.Link{Open: true, Sep: dollars(300, 1500)})
		yards = append(yards, y)
	}
	if chance(70) {
		g := add("garage", 0, partition.Cell{Detached: true})
		link(driveway, g, partition.Link{Open: true, Sep: dollars(0, 100)})
	}
	levels := 1 + min(2, size/12)
	var halls []int
	hall := func(on int) int {
		c := shared("hall")
		c.Area, c.Capacity = int64(4+r.IntN(8)), 1
		h := add("hall", on, c)
		if len(halls) > 0 {
			before := halls[len(halls)-1]
			if level[before] == on {
				link(before, h, partition.Link{Open: true, Sep: dollars(400, 1500)})
			} else {
				s := shared("stair")
				s.Area = 4
				st := add("stair", on, s)
				link(before, st, partition.Link{Open: true, Sep: dollars(600, 1200)})
				link(st, h, partition.Link{Open: true, Sep: dollars(600, 1200)})
			}
		}
		halls = append(halls, h)
		return h
	}
	outside := func(room, on int) {
		if on > 0 {
			return
		}
		for _, g := range append([]int{driveway}, yards...) {
			if chance(45) && (size >= 14 || chance(50)) {
				link(g, room, partition.Link{Open: chance(20), Door: dollars(1500, 4500), Entry: [2]bool{true, true}})
			}
		}
	}
	kinds := []string{"living", "kitchen", "bed", "bath", "bed", "utility", "bed", "bath", "family", "closet", "bed"}
	for on := range levels {
		rooms := max(3, (size-len(p.Cells))/(levels-on))
		var last int
		h := hall(on)
		outside(h, on)
		for k := range rooms {
			if k%6 == 5 {
				h = hall(on)
			}
			kind := kinds[(k+r.IntN(3))%len(kinds)]
			if on == 0 && k < 4 {
				kind = kinds[k]
			}
			c := partition.Cell{Area: int64(5 + r.IntN(20)), DeadEnd: kind == "bed" || kind == "bath" || kind == "closet" || kind == "utility"}
			room := add(kind, on, c)
			link(h, room, partition.Link{Open: true, Sep: dollars(250, 600)})
			if k > 0 {
				l := partition.Link{Sep: dollars(400, 2500)}
				if chance(40) {
					l.Door = dollars(1200, 3000)
				}
				if (kind == "bath" || kind == "closet") && p.Cells[last].DeadEnd && chance(50) {
					l.Open, l.Ensuite = true, true
				}
				link(last, room, l)
			}
			if !c.DeadEnd {
				outside(room, on)
			}
			last = room
		}
	}
	for u := range p.Cells {
		for v := range u {
			if level[u] == level[v]+1 && p.Cells[u].Area > 0 && p.Cells[v].Area > 0 && chance(12) {
				link(v, u, partition.Link{Sep: dollars(300, 2500)})
			}
		}
	}
	small := size < 14 // too small to hold two of everything
	need := []int{1, 1, 1, 1, 1, 1, r.IntN(2), 1}
	if small { // and to try every host
		need = []int{1, 1, 0, r.IntN(2), 0, 1, r.IntN(2), 0}
	} else if chance(40) { // hard to please
		need[5] += 1 + r.IntN(1+size/20)
		p.ShareMin, p.ShareMax = 400, 600
	}
	for c := range p.Cells {
		if p.Cells[c].Allowed == both && chance(4) {
			p.Cells[c].Allowed = 1 << r.IntN(2)
		}
	}
	for u := range p.Units {
		lack := make([]partition.Price, len(functions))
		for f := range lack {
			lack[f].Money = partition.Impossible
			if f >= 6 || f == 2 || small && chance(80) {
				lack[f].Money = dollars(2000, 6000)
				lack[f].Shared = f / 7
			}
		}
		p.Units[u] = partition.Unit{Need: need, Lack: lack, MinArea: int64(r.IntN(10 + size)), NeedEntry: true}
	}
	if chance(40) {
		p.Units[1] = p.Units[0]
	}
	if chance(50) {
		p.Balance = partition.Balance{Share: 500, PerArea: dollars(10, 100)}
	}
	if r := rand.New(rand.NewPCG(seed, 11)); r.IntN(2) == 0 {
		addConversions(p, r)
	}
	return p
}

// addConversions makes dead ends of the rooms that become bedrooms, bathrooms
// or laundries, with their own baths and closets beyond, and lets some
// functions not go together in a room.
func addConversions(p *partition.Problem, r *rand.Rand) {
	const bathroom, laundry, bedroom = 1, 2, 5
	for c := range p.Cells {
		cell := &p.Cells[c]
		if !indoor(cell) {
			continue
		}
		if !cell.DeadEnd {
			cell.Closes = make([]bool, len(p.Functions))
			for _, f := range []int{bathroom, laundry, bedroom} {
				cell.Closes[f] = cell.Host[f] > 0
			}
		}
		for range r.IntN(3) {
			cell.Clashes = append(cell.Clashes, r.Perm(6)[:2+r.IntN(2)])
		}
	}
	for i := range p.Links {
		l := &p.Links[i]
		u, v := &p.Cells[l.U], &p.Cells[l.V]
		if indoor(u) && !u.DeadEnd && v.DeadEnd && r.IntN(3) == 0 {
			l.Ensuite = true
		}
	}
}

func contains(list, f string) bool {
	for len(list) > 0 {
		var word string
		for i := 0; i < len(list) && list[i] != ' '; i++ {
			word += string(list[i])
		}
		if word == f {
			return true
		}
		list = list[min(len(list), len(word)+1):]
	}
	return false
}
