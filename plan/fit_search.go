package plan

import (
	"cmp"
	"math"
	"slices"
)

// want is something to be placed in a room: options gives its places beside
// what has been placed, the likelier first.
type want struct {
	name    string
	options func(r *fitRoom, done []placed) []placed
}

// Bounds on the effort of fitting one room.
const (
	// mostTries is how often something is tried beside what was placed.
	mostTries = 600
	// mostFound is how many arrangements are compared.
	mostFound = 120
	// mostJudged is how many of them, the best first, are looked at for their
	// ways and what they leave of the room.
	mostJudged = 24
	// mostKept is how many of a room are kept that really differ.
	mostKept = 4
	// reallyDiffers is by how much, in metres, something stands elsewhere in
	// an arrangement that really differs from another: between steps of
	// placeStep, so that rounding does not decide.
	reallyDiffers = 0.325
)

// arrangement is everything that was to be placed, in its place.
type arrangement struct {
	placed []placed
	drain  float64 // the longest branch
	stack  string  // where it goes
	merit  [6]int  // the lesser the better, the first that differs deciding
}

// search places everything wanted in the room, beside what is given as placed.
// The best come first: by the drain to the metre, the layouts, the length of
// worktop, swings of doors over clear space, backs on walls without plumbing,
// all drains together. Where one is enough it is the first that is found.
func (r *fitRoom) search(wants []want, given []placed, leaves func(arrangement) bool, enough int) []arrangement {
	var found []arrangement
	if enough == 1 {
		r.arrange(wants, given, mostJudged, func(a arrangement) bool {
			if r.keepsWays(a) && (leaves == nil || leaves(a)) {
				found = []arrangement{a}
			}
			return len(found) == 0
		})
		return found
	}
	r.arrange(wants, given, mostFound, func(a arrangement) bool {
		found = append(found, a)
		return true
	})
	slices.SortStableFunc(found, func(a, b arrangement) int {
		return slices.Compare(a.merit[:], b.merit[:])
	})
	if kept := r.judged(found, leaves, enough); len(kept) > 0 {
		return kept
	}
	return r.search(wants, given, leaves, 1)
}

// arrange calls found for each arrangement of everything wanted, until it
// returns false, by backtracking: each thing flush with what bounds its place
// or nearest to a stack, since whatever fits still fits when everything is
// moved along its wall until it touches. The effort is bounded by mostTries,
// and the number of arrangements by most, both shared evenly among the places
// of the first thing.
func (r *fitRoom) arrange(wants []want, given []placed, most int, found func(arrangement) bool) {
	tries, limit, count := mostTries, most, 0
	done := false
	var place func(k int, all []placed)
	place = func(k int, all []placed) {
		if k == len(wants) {
			count++
			done = !found(r.arrangement(all[len(given):]))
			return
		}
		if tries <= 0 {
			return
		}
		tries--
		for _, o := range wants[k].options(r, all) {
			if done || count >= limit {
				return
			}
			place(k+1, append(all[:len(all):len(all)], o))
		}
	}
	if len(wants) == 0 {
		place(0, given)
		return
	}
	first := wants[0].options(r, given)
	for i, o := range first {
		if done {
			return
		}
		tries = max(mostTries/len(first), 1)
		limit = max(most*(i+1)/len(first), count+1)
		place(1, append(given[:len(given):len(given)], o))
	}
}

// judged keeps the best arrangements that really differ and that leave the
// room its ways and what leaves asks for.
func (r *fitRoom) judged(found []arrangement, leaves func(arrangement) bool, enough int) []arrangement {
	var kept []arrangement
	looked := 0
	for _, a := range found {
		if len(kept) == enough || looked == mostJudged {
			break
		}
		if slices.ContainsFunc(kept, func(k arrangement) bool { return !a.differs(k) }) {
			continue
		}
		looked++
		if r.keepsWays(a) && (leaves == nil || leaves(a)) {
			kept = append(kept, a)
		}
	}
	return kept
}

// arrangement measures what was placed.
func (r *fitRoom) arrangement(done []placed) arrangement {
	a := arrangement{placed: slices.Clone(done)}
	swings := r.patches(isSwing)
	sum := 0.0
	for i := range done {
		p := &done[i]
		a.merit[1] += p.variant
		a.merit[2] -= int(p.worktop/0.10 + fitTolerance)
		for _, q := range p.all() {
			switch {
			case q.role == aClear:
				for _, s := range swings {
					if s.overlaps(q.patch) {
						a.merit[3]++
					}
				}
			case q.pipe > 0:
				run, id, _ := r.drainFrom(r.outline(q).centre(), q.pipe)
				sum += run
				if run > a.drain+fitTolerance || a.stack == "" {
					a.drain, a.stack = run, id
				}
				if w := &r.runs[q.run]; q.off.from == 0 {
					from := q.patch[0].sub(w.a).dot(w.dir)
					if !w.onWet(span{from, from + q.x.length()}) {
						a.merit[4]++
					}
				}
			}
		}
	}
	// settled: rounding of a turned house decides nothing.
	a.merit[0] = int(math.Ceil(a.drain - 0.01))
	a.merit[5] = int(math.Ceil((sum - settled) / placeStep))
	return a
}

// patches gives the patches of a role.
func (a arrangement) patches(role partRole) []patch {
	var out []patch
	for i := range a.placed {
		for _, p := range a.placed[i].all() {
			if p.role == role {
				out = append(out, p.patch)
			}
		}
	}
	return out
}

// differs tells whether a fixture, or a bed, stands elsewhere in a than in b.
func (a arrangement) differs(b arrangement) bool {
	p, q := a.standing(), b.standing()
	if len(p) != len(q) {
		return true
	}
	for i := range p {
		if p[i].use != q[i].use || p[i].patch.centre().to(q[i].patch.centre()) > reallyDiffers {
			return true
		}
	}
	return false
}

// standing gives the bodies but for worktops, by use.
func (a arrangement) standing() []placedPart {
	var out []placedPart
	for i := range a.placed {
		for _, p := range a.placed[i].all() {
			if p.role == aBody && (p.use != "" || a.placed[i].worktop == 0) {
				out = append(out, p)
			}
		}
	}
	slices.SortStableFunc(out, func(p, q placedPart) int { return cmp.Compare(p.use, q.use) })
	return out
}

// drained tells whether everything of the parts that drains is within reach of
// a stack.
func (r *fitRoom) drained(parts []placedPart) bool {
	for _, p := range parts {
		if p.pipe == 0 {
			continue
		}
		if _, _, ok := r.drainFrom(r.outline(p).centre(), p.pipe); !ok {
			return false
		}
	}
	return true
}

// nearestDrainFirst orders options by variant and then by their drain.
func (r *fitRoom) nearestDrainFirst(options []placed) []placed {
	far := func(p *placed) int {
		most := 0.0
		for _, q := range p.all() {
			if q.pipe > 0 {
				run, _, _ := r.drainFrom(r.outline(q).centre(), q.pipe)
				most = max(most, run)
			}
		}
		return int(math.Ceil(most/placeStep - settled/placeStep))
	}
	type ranked struct {
		placed
		far int
	}
	list := make([]ranked, len(options))
	for i := range options {
		list[i] = ranked{options[i], far(&options[i])}
	}
	slices.SortStableFunc(list, func(a, b ranked) int {
		return cmp.Or(cmp.Compare(a.variant, b.variant), cmp.Compare(a.far, b.far))
	})
	for i := range list {
		options[i] = list[i].placed
	}
	return options
}
