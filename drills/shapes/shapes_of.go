package shapes

import (
	"sparetone/drills"
	"sparetone/drills/neck"
)

// shapesOf returns the shapes in which the kind of chord that is asked for may be asked.
func shapesOf(r drills.Request) []neck.Held {
	return r.ShapesOfEach([]drills.Target{{ID: r.Target}}, r.Reach)[0]
}
