package reliability

import (
	"math"
)

// CatalogueScale is the scale at which one in ten fails by the life L10 = 1:
// 4.48 at a shape of 1.5. ISO 281's definition of L10.
func CatalogueScale(shape float64) float64 { return math.Pow(-math.Log(0.9), -1/shape) }
