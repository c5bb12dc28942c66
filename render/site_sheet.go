package render

func (p *project) siteSheet() ([]*Sheet, error) { return nil, nil }
