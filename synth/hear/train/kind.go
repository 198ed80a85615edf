package main

// kind is a net that is made.
type kind struct {
	name   string // of its file
	inTurn bool   // the strings are plucked in turn
	masked bool   // only strings that another masks are judged
	sounds int
	times  int
}

// kinds are the three nets. The trial of a few thousand sounds fewer misjudged one note in ten and in twenty-seven of sounds that were not
// learned from, with these 2.9 and 0.2 of a hundred. The net of
// masked strings misjudges 7.2 of a hundred of those.
var kinds = []kind{
	{"strum", false, false, 14000, 16},
	{"masked", false, true, 14000, 16},
	{"pluck", true, false, 14000, 16},
}
