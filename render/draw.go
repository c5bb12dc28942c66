package render

import (
	"github.com/tdewolff/canvas"
)

// inker puts marks on a renderer of canvas. What has to be known about that
// library is known here: dash lengths are multiplied by the line width on the
// way, so they are divided first; a pattern is never used as a paint; fills
// are always by winding, never even-odd, which breaks a stroke in PDF;
// transforms change a path in place, so paths are final when they come here;
// paints are opaque.
type inker struct {
	to     canvas.Renderer
	fonts  *typeface
	noArcs bool // the renderer has no arcs of its own
}

func (k inker) draw(m mark) {
	if m.text != nil {
		k.letter(*m.text)
		return
	}
	style := canvas.Style{
		StrokeCapper: canvas.ButtCap,
		StrokeJoiner: canvas.MiterJoin,
		FillRule:     canvas.NonZero,
	}
	if m.fill != nothing {
		style.Fill = canvas.Paint{Color: m.fill}
	}
	if m.pen.width > 0 {
		style.Stroke = canvas.Paint{Color: m.pen.ink}
		style.StrokeWidth = m.pen.width
		for _, d := range m.pen.dash {
			style.Dashes = append(style.Dashes, d/m.pen.width)
		}
	}
	path := m.path
	if k.noArcs {
		path = withoutArcs(path)
	}
	k.to.RenderPath(path, style, canvas.Identity)
}

func (k inker) letter(l lettering) {
	face := k.fonts.face(l.height, l.bold, l.ink)
	at := canvas.Identity.Translate(rounded(l.at.X), rounded(l.at.Y))
	if l.turn != 0 {
		at = at.Rotate(l.turn)
	}
	k.to.RenderText(k.fonts.line(l.text, face), at)
}
