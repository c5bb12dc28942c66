package partition

import (
	"encoding/json"
	"errors"
	"fmt"
	"io"
)

// instanceFunctions are the functions of the abstract instances, in their order.
var instanceFunctions = []Function{
	{Name: "kitchen"}, {Name: "bath"}, {Name: "laundry"}, {Name: "heat"}, {Name: "living"}, {Name: "bedroom"},
	{Name: "entry", Uncounted: true, Exactly: true}, {Name: "outdoor"}, {Name: "parking"},
}

type instance struct {
	Name  string `json:"name"`
	Count int    `json:"n"`
	Cells []struct {
		Name     string  `json:"name"`
		Kind     string  `json:"kind"`
		Level    int     `json:"level"`
		Area     int64   `json:"area"`
		Outdoor  bool    `json:"ext"`
		Pin      int     `json:"pin"`
		Common   Money   `json:"common"`
		Capacity int     `json:"cap"`
		Host     []Money `json:"host"`
	} `json:"cells"`
	Edges []struct {
		U          int    `json:"u"`
		V          int    `json:"v"`
		Kind       string `json:"kind"`
		Open       bool   `json:"open"`
		Separation Money  `json:"sep"`
		Door       Money  `json:"door"`
		Connects   bool   `json:"conn"`
	} `json:"edges"`
	Need    [2][]int `json:"req"`
	MinArea [2]int64 `json:"minArea"`
	Share   [2]int   `json:"share"`
}

// ReadInstance reads one of the abstract instances of testdata/instances: house-like
// graphs with an entry as a hosted function, no dead ends and no public way.
func ReadInstance(r io.Reader) (*Problem, error) {
	var in instance
	d := json.NewDecoder(r)
	d.DisallowUnknownFields()
	if err := d.Decode(&in); err != nil {
		return nil, fmt.Errorf("partition: instance: %w", err)
	}
	if _, err := d.Token(); !errors.Is(err, io.EOF) {
		return nil, fmt.Errorf("partition: instance %q: more than one value", in.Name)
	}
	if in.Count != len(in.Cells) {
		return nil, fmt.Errorf("partition: instance %q: %d cells, not %d", in.Name, len(in.Cells), in.Count)
	}
	p := &Problem{Name: in.Name, Functions: instanceFunctions, ShareMin: in.Share[0], ShareMax: in.Share[1]}
	for _, c := range in.Cells {
		cell := Cell{Name: c.Name, Area: c.Area, Outdoor: c.Outdoor, Capacity: c.Capacity, Host: c.Host, Distinct: true}
		cell.Allowed = 1<<A | 1<<B
		if c.Common != Impossible {
			cell.Allowed = Any
			cell.Common.Money = c.Common
		}
		if c.Pin == 0 || c.Pin == 1 {
			cell.Allowed = 1 << c.Pin
		}
		p.Cells = append(p.Cells, cell)
	}
	for _, e := range in.Edges {
		link := Link{Name: e.Kind, U: e.U, V: e.V, Open: e.Open && e.Connects, Door: e.Door, Sep: e.Separation}
		if !e.Connects {
			link.Door = Impossible
		}
		p.Links = append(p.Links, link)
	}
	for u := range p.Units {
		p.Units[u] = Unit{Need: in.Need[u], MinArea: in.MinArea[u], Lack: make([]Price, len(p.Functions))}
		for f := range p.Units[u].Lack {
			p.Units[u].Lack[f].Money = Impossible
		}
	}
	if err := p.Check(); err != nil {
		return nil, fmt.Errorf("instance %q: %w", in.Name, err)
	}
	return p, nil
}
