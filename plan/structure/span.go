package structure

// UniformMoment is the greatest moment in kNm of a simple span under a uniform
// load, w L2/8 (AWC DA-6 figure 1, from memory).
func UniformMoment(knPerM, spanM float64) float64 { return knPerM * spanM * spanM / 8 }

// UniformShear is the end reaction in kN of a simple span under a uniform load,
// w L/2 (AWC DA-6 figure 1, from memory).
func UniformShear(knPerM, spanM float64) float64 { return knPerM * spanM / 2 }

// UniformDeflectionMM is the sag in mm at the middle of a simple span under a
// uniform load, 5 w L4/(384 E I), with E I in kNm2 (AWC DA-6 figure 1, from memory).
func UniformDeflectionMM(knPerM, spanM, stiffnessKNm2 float64) float64 {
	return 5 * knPerM * spanM * spanM * spanM * spanM / (384 * stiffnessKNm2) * 1e3
}
