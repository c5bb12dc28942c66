package geom_test

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"moiety/geom"
)

// estate is a generated building of n rooms on two levels: rows of rooms of
// different width, walls of 0.12 and 0.25 m, turned by 12 degrees.
func estate(n int) []geom.Prism {
	var rooms []geom.Region
	const perRow = 5
	for i := range (n + 1) / 2 {
		row, col := i/perRow, i%perRow
		x := float64(col)*3.6 + 0.3*float64(row%3)
		y := float64(row) * 3.25
		rooms = append(rooms, rect(x, y, x+3.48, y+3))
	}
	prisms := storeys(rooms...)
	for _, r := range rooms[:n/2] {
		prisms = append(prisms, geom.Prism{Base: motion{x: 0.4, y: 0.2}.region(r), Low: 2.7, High: 5.1, Layer: 1})
	}
	return motion{degrees: 12}.prisms(prisms)
}

var sizes = []int{20, 300}

func forSizes(b *testing.B, run func(b *testing.B, prisms []geom.Prism)) {
	for _, n := range sizes {
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			run(b, estate(n))
		})
	}
}

func BenchmarkWalls(b *testing.B) {
	forSizes(b, func(b *testing.B, prisms []geom.Prism) {
		for b.Loop() {
			geom.Walls(prisms, 0.3)
		}
	})
}

func BenchmarkContacts(b *testing.B) {
	forSizes(b, func(b *testing.B, prisms []geom.Prism) {
		for b.Loop() {
			if _, err := geom.Contacts(prisms, 0.5); err != nil {
				b.Fatal(err)
			}
		}
	})
}

// Both levels.
func BenchmarkOutline(b *testing.B) {
	forSizes(b, func(b *testing.B, prisms []geom.Prism) {
		walls := geom.Walls(prisms, 0.3)
		for b.Loop() {
			for layer := range 2 {
				if _, err := geom.Outline(prisms, walls, layer); err != nil {
					b.Fatal(err)
				}
			}
		}
	})
}

// The ground floor, between two groups.
func BenchmarkShares(b *testing.B) {
	forSizes(b, func(b *testing.B, prisms []geom.Prism) {
		outline, err := geom.Outline(prisms, geom.Walls(prisms, 0.3), 0)
		if err != nil {
			b.Fatal(err)
		}
		ground := ofLayer(prisms, 0)
		group := make([]int, len(ground))
		for i := range group {
			group[i] = i % 2
		}
		for b.Loop() {
			if _, err := geom.Shares(outline, ground, group); err != nil {
				b.Fatal(err)
			}
		}
	})
}

func BenchmarkSnap(b *testing.B) {
	forSizes(b, func(b *testing.B, prisms []geom.Prism) {
		var regions []geom.Region
		for _, p := range prisms {
			regions = append(regions, p.Base)
		}
		for b.Loop() {
			geom.Snap(regions, geom.Coincide)
		}
	})
}

func BenchmarkVisualCentre(b *testing.B) {
	ell := motion{degrees: 12}.region(geom.Region{Outer: ring(0, 0, 6.3, 0, 6.3, 2.1, 2.4, 2.1, 2.4, 5.7, 0, 5.7)})
	for b.Loop() {
		geom.VisualCentre(ell)
	}
}

// BenchmarkWalkway prepares a floor of several rooms with pillars and finds a
// way across it.
func BenchmarkWalkway(b *testing.B) {
	for _, half := range []float64{0, 0.25} {
		b.Run(fmt.Sprintf("half=%g", half), func(b *testing.B) {
			rnd := rand.New(rand.NewPCG(4, 3))
			r := randomFloor(rnd)
			from, to := randomPlace(rnd, r), randomPlace(rnd, r)
			for b.Loop() {
				geom.NewWalkway(r, half).Way(from, to)
			}
		})
	}
}

func BenchmarkClearWidth(b *testing.B) {
	r := geom.Region{Outer: ring(0, 0, 4, 0, 4, 3, 2.8, 3, 2.8, 0.9, 0, 0.9)}
	for b.Loop() {
		geom.ClearWidth(r, stretch(0, 0.1, 0, 0.8), stretch(2.9, 3, 3.7, 3))
	}
}
