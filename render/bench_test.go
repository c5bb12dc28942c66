package render_test

import (
	"io"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"moiety/render"
)

// A house of 300 rooms on three levels, for growth.
func BenchmarkSurveyOf300Rooms(b *testing.B) {
	house := storeys(b, 3, 10, 10)
	b.ReportAllocs()
	for b.Loop() {
		_, err := render.Survey(house, render.Options{})
		require.NoError(b, err)
	}
}

// What a set of sheets costs, per house: drawing it, and writing it.
func BenchmarkSet(b *testing.B) {
	for _, file := range surveys(b) {
		name := strings.TrimSuffix(filepath.Base(file), ".house.json")
		house := building(b, file)
		s := split(b, house, file)
		if s == nil {
			continue
		}
		b.Run("draw/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				_, err := render.Set(s, render.Options{})
				require.NoError(b, err)
			}
		})
		sheets, err := render.Set(s, render.Options{})
		require.NoError(b, err)
		b.Run("pdf/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				require.NoError(b, render.WritePDF(io.Discard, sheets, name))
			}
		})
		b.Run("svg/"+name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				for _, sheet := range sheets {
					require.NoError(b, sheet.WriteSVG(io.Discard))
				}
			}
		})
	}
}
