package partition_test

import (
	"context"
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
