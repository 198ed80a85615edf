package practice

import (
	"sparetone/drills/catalogue"
	"sparetone/drills/neck"
	"sparetone/theory/say"
)

// Room is how much there is to learn on an instrument.
type Room struct {
	Things int // of the course
	Forms  int // in which they are asked, from the clearest to the closest, of all of them together
}

// RoomIn counts what chapters hold on an instrument.
func RoomIn(on *neck.Instrument, chapters []Chapter) (r Room) {
	for _, c := range chapters {
		for _, p := range c.Parts {
			for _, t := range p.Things {
				r.Things++
				r.Forms += len(catalogue.Rungs(on, t.Drill.About().ID, t.ID))
			}
		}
	}
	return r
}

// Words says how much there is to learn, and that it comes bit by bit.
func (r Room) Words() say.Text {
	return say.Of("{} to learn, in {}: new ones day by day.",
		say.Count{N: r.Things, One: "thing", Many: "things"}, say.Count{N: r.Forms, One: "form", Many: "forms"})
}
