package plan

// cost prices a kind of work by its quantities: length in metres, area in m2,
// and how many there are. What depends on the place (lintel, steps, a gate)
// comes on top. A kind without a price costs nothing.
func (p *Prices) cost(kind string, length, area float64, count int) float64 {
	n := float64(count)
	switch kind {
	case "separating_wall":
		return area * p.SeparatingWall.PerM2
	case "upgrade_wall":
		return area * p.UpgradeWall
	case "upgrade_floor":
		return area * p.UpgradeFloor
	case "seal_door":
		return n * p.SealDoor
	case "seal_opening":
		return n * p.SealOpening
	case "close_stair":
		return n*p.CloseStair.Each + area*p.CloseStair.PerM2
	case "new_door":
		return n * p.NewDoor.Each
	case "new_entry":
		return n * p.NewEntry.Each
	case "remove_wall":
		return area * p.RemoveWall
	case "fence":
		return length * p.Fence.PerM
	case "new_kitchen":
		return n * p.NewKitchen
	case "new_bathroom":
		return n * p.NewBathroom.Each
	case "new_powder_room":
		return n * p.NewPowderRoom
	case "new_laundry":
		return n * p.NewLaundry
	case "new_furnace":
		return n * p.NewFurnace
	case "new_water_heater":
		return n * p.NewWaterHeater
	case "finish_space":
		return area * p.FinishSpace
	case "new_window":
		return n * p.NewWindow.Each
	case "enlarge_window":
		return n * p.EnlargeWindow.Each
	case "window_well":
		return n * p.WindowWell
	case "new_panel":
		return n * p.NewPanel
	case "new_meter":
		return n * p.NewMeter
	case "address_set":
		return n * p.AddressSet
	}
	return 0
}

// completion is the price of a function whose fixtures are there in part: a
// bathroom where a powder room is. Other functions cost the same either way.
func (p *Prices) completion(kind string) float64 {
	if kind == "new_bathroom" {
		return p.NewBathroom.FromPowderRoom
	}
	return p.cost(kind, 0, 0, 1)
}

// lintel is what a new door or entry costs more in a bearing wall.
func (p *Prices) lintel(kind string, bearing bool) float64 {
	switch {
	case !bearing:
		return 0
	case kind == "new_entry":
		return p.NewEntry.Lintel
	}
	return p.NewDoor.Lintel
}

// steps is what a new door or entry costs more for steps of that rise in metres.
func (p *Prices) steps(kind string, rise float64) float64 {
	if kind == "new_entry" {
		return rise * p.NewEntry.StepsM
	}
	return 0
}
