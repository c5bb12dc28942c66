package main

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// BenchmarkSplit times a sample house from its survey to the complete result
// of its brief, every scheme drawn and written.
func BenchmarkSplit(b *testing.B) {
	surveys, err := filepath.Glob(filepath.Join("..", "..", "samples", "*", "*.house.json"))
	if err != nil || len(surveys) == 0 {
		b.Fatal("no samples", err)
	}
	for _, survey := range surveys {
		name := strings.TrimSuffix(survey, ".house.json")
		b.Run(filepath.Base(name), func(b *testing.B) {
			b.ReportAllocs()
			out := filepath.Join(b.TempDir(), "out")
			for b.Loop() {
				code, _, stderr := ran(context.Background(), nil, "split", survey, "-brief", name+".brief.yaml", "-o", out)
				if code != exitDone {
					b.Fatal(stderr)
				}
			}
		})
	}
}

// BenchmarkSurvey times the drawing of a sample house as it is.
func BenchmarkSurvey(b *testing.B) {
	survey := filepath.Join("..", "..", "samples", "split-level", "split-level.house.json")
	if _, err := os.Stat(survey); err != nil {
		b.Fatal(err)
	}
	out := filepath.Join(b.TempDir(), "out")
	for b.Loop() {
		if code, _, stderr := ran(context.Background(), nil, "survey", survey, "-o", out); code != exitDone {
			b.Fatal(stderr)
		}
	}
}
