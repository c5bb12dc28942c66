package partition

// Symmetric tells whether exchanging the units changes nothing.
func Symmetric(p *Problem) bool { return newModel(p).symmetric }
