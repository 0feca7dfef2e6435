package decision

import (
	"time"
)

var departure = time.Date(2027, 5, 13, 0, 0, 0, 0, time.UTC)
