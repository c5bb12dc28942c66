package plan_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/plan"
)

func BenchmarkReadDuplex(b *testing.B) {
	data, err := os.ReadFile(filepath.Join("..", "testdata", "houses", "duplex.house.json"))
	require.NoError(b, err)
	benchmarkRead(b, data)
}

// A row of equal rooms with a door and a window each shows how reading grows.
func BenchmarkReadRow(b *testing.B) {
	for _, rooms := range []int{10, 100, 300} {
		b.Run(fmt.Sprintf("%d spaces", rooms), func(b *testing.B) {
			c := collection{Type: "FeatureCollection", House: map[string]any{"levels": []map[string]any{{"id": "main", "floor": 0, "height": 2.4}}}}
			for i := range rooms {
				x := 3.1 * float64(i)
				c.Features = append(c.Features,
					item{"Feature", fmt.Sprintf("room-%d", i), polygon(position{x, 0}, position{x + 3, 0}, position{x + 3, 4}, position{x, 4}), map[string]any{"kind": "space", "use": "hall", "level": "main"}},
					item{"Feature", fmt.Sprintf("door-%d", i), line(position{x + 3.05, 1}, position{x + 3.05, 1.9}), map[string]any{"kind": "door", "level": "main"}},
					item{"Feature", fmt.Sprintf("window-%d", i), line(position{x + 1, -0.1}, position{x + 2, -0.1}), map[string]any{"kind": "window", "level": "main"}})
			}
			data, err := json.Marshal(c)
			require.NoError(b, err)
			benchmarkRead(b, data)
		})
	}
}

func benchmarkRead(b *testing.B, data []byte) {
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := plan.Read(bytes.NewReader(data), "bench.house.json"); err != nil {
			b.Fatal(err)
		}
	}
}
