package acoustics_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	. "moiety/plan/acoustics"
)

// A surface of as many m2 as the room absorbs passes the level less its rating;
// twice the surface passes 3 dB more. The reference absorption of 10 m2 is that
// of a furnished room of 31 m3, which is what ISO 16283-1 compares with.
func TestWhatIsHeardBeyondAWall(t *testing.T) {
	assert.InDelta(t, 25, Received(75, 50, 10, 10), 1e-12)
	assert.InDelta(t, 28, Received(75, 50, 20, 10), 0.02)
	assert.InDelta(t, 10, Furnished(31.06), 0.01)
}
