package plan

// Fixtures of a bathroom, in metres.
var (
	// bath-centre-15, bath-front-21 (read); the wc's size is common practice.
	wcPiece = piece{
		use: "wc", wide: 0.40, deep: 0.70, high: 0.80, pipe: soilPipe,
		bay: fixtureBay, clear: fixtureBay, centred: true, front: bathroomFront,
	}
	// bath-lav: centre line 15 in from the wall, 30 in clear before it (NKBA;
	// read); the size is common practice. A mirror hangs above it.
	basinPiece = piece{
		use: "basin", wide: 0.60, deep: 0.48, high: 1.00, pipe: wastePipe,
		bay: fixtureBay, clear: fixtureBay, centred: true, front: bathroomFront,
	}
	// bath-tub: 60 by 30 in (trade; read). Its wall is lined to 1.20 m: a window
	// sits no lower (common practice, no source).
	bathPiece = piece{
		use: "bath", wide: 60 * inch, deep: 30 * inch, high: 1.20, pipe: wastePipe,
		clear: besideBath, front: bathroomFront, corner: true,
	}
	// bath-shower-size: 34 in square recommended, 32 in allowable (NKBA; read).
	showerPiece      = shower(34 * inch)
	smallShowerPiece = shower(32 * inch)
)

// showerDoor is the width of the entry of a shower: 24 in (common practice, no source).
const showerDoor = 24 * inch

func shower(size float64) piece {
	return piece{
		use: "shower", wide: size, deep: size, high: 2.00, pipe: wastePipe,
		clear: showerDoor, front: showerFront, corner: true,
	}
}

// fromItsSide gives the parts of a shower that is entered from its open side,
// at its end (or its start) along the wall.
func fromItsSide(p piece, atEnd bool) []part {
	body := part{role: aBody, x: span{0, p.wide}, off: span{0, p.deep}, high: p.high, use: p.use, pipe: p.pipe}
	entry := part{role: aClear, x: span{p.wide, p.wide + p.front}, off: span{p.deep - p.clear, p.deep}}
	if !atEnd {
		entry.x = span{-p.front, 0}
	}
	return []part{body, entry}
}

// bathingWant places a bath or, behind it in order, a shower.
var bathingWant = want{"bath or shower", func(r *fitRoom, done []placed) []placed {
	out := r.stand(bathPiece, 0, done)
	for variant, p := range [...]piece{showerPiece, smallShowerPiece} {
		out = append(out, r.stand(p, variant+1, done)...)
		for _, atEnd := range [...]bool{true, false} {
			out = append(out, r.along(fromItsSide(p, atEnd), true, variant+1, done)...)
		}
	}
	return r.nearestDrainFirst(out)
}}

// pieceWant places one piece.
func pieceWant(p piece) want {
	return want{p.use, func(r *fitRoom, done []placed) []placed { return r.nearestDrainFirst(r.stand(p, 0, done)) }}
}

// bathroomWants lists what a room lacks of a bathroom; of a bathroom or powder
// room what is there stays.
func (r *fitRoom) bathroomWants(gone map[int]bool) []want {
	has := func(uses ...string) bool {
		for _, o := range r.obstacles {
			if o.kind != isStanding || o.fixture < 0 || gone[o.fixture] {
				continue
			}
			for _, u := range uses {
				if o.use == u {
					return true
				}
			}
		}
		return false
	}
	var out []want
	if !has("bath", "shower") {
		out = append(out, bathingWant)
	}
	if !has("wc") {
		out = append(out, pieceWant(wcPiece))
	}
	if !has("basin") {
		out = append(out, pieceWant(basinPiece))
	}
	return out
}
