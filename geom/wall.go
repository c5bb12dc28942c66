package geom

// Prism is a region with a vertical extent, in metres above the datum.
// Prisms of one Layer are surveyed together: coinciding edges within a layer
// are open to each other, and a layer has an outline of its own.
type Prism struct {
	Base       Region
	Low, High  float64
	Layer      int
	Unenclosed bool // outdoors: it has edges, but no walls of its own
}

// Exposed stands for the far side of a wall that faces nothing.
const Exposed = -1

// Wall is a straight stretch between an edge of prism A and the edge of prism
// B that it faces (A < B, or A == B for a stub within one prism), or of an
// edge of A that faces nothing (B == Exposed).
//
// FaceA runs along A's edge with A on its left; FaceB is the same stretch
// projected on B's edge, in the same sense. For an exposed wall FaceB lies
// Thickness outside FaceA.
type Wall struct {
	A, B         int
	FaceA, FaceB Segment
	Thickness    float64 // metres, 0 for coinciding edges
	Low, High    float64 // vertical extent that both sides share
	Open         bool    // coinciding edges of one layer: no wall stands there
}

// Contact is a floor: where prism Above lies over prism Below.
type Contact struct {
	Below, Above int
	Shape        Shape
	Depth        float64 // metres from the ceiling below to the floor above
}
