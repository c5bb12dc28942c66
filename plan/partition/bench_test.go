package partition_test

import (
	"context"
	"fmt"
	"testing"
	"time"

	"moiety/plan/partition"
)

// BenchmarkInstance proves each instance. An instance that takes longer than a
// minute is given up, which fails the benchmark.
func BenchmarkInstance(b *testing.B) {
	for _, o := range optima {
		b.Run(o.name, func(b *testing.B) {
			p := readInstance(b, o.name)
			var nodes int64
			for b.Loop() {
				ctx, cancel := context.WithTimeout(context.Background(), time.Minute)
				r, err := partition.Solve(ctx, p, partition.Options{})
				cancel()
				if err != nil || r.Status != partition.Proved && r.Status != partition.Infeasible {
					b.Fatal(r.Status, err)
				}
				nodes += r.Nodes
			}
			b.ReportMetric(float64(nodes)/float64(b.N), "parts/op")
		})
	}
}

// BenchmarkFiveSchemes proves the five best different schemes.
func BenchmarkFiveSchemes(b *testing.B) {
	for _, name := range []string{"h016_s0", "h024_s0", "h032_s0", "h048_s0", "h048_s1", "h048_s2"} {
		b.Run(name, func(b *testing.B) {
			p := readInstance(b, name)
			for b.Loop() {
				if _, err := partition.Solve(context.Background(), p, partition.Options{Schemes: 5}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkHouse proves the best scheme, and the five best, of made-up houses.
func BenchmarkHouse(b *testing.B) {
	for _, size := range []int{15, 25, 35, 45} {
		for _, k := range []int{1, 5} {
			b.Run(fmt.Sprintf("%d cells/%d schemes", size, k), func(b *testing.B) {
				var nodes, feasible int64
				for i := range uint64(b.N) {
					r := solve(b, houseLike(i%20, size), partition.Options{Schemes: k})
					nodes += r.Nodes
					if r.Status == partition.Proved {
						feasible++
					}
				}
				b.ReportMetric(float64(nodes)/float64(b.N), "parts/op")
				b.ReportMetric(float64(feasible)/float64(b.N), "feasible/op")
			})
		}
	}
}
