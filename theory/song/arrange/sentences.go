package arrange

import (
	"slices"

	"sparetone/theory/fret"
	"sparetone/theory/say"
)

// Trade says what comes for what in a colour: "9 for the doubled root", or "4 for 3: the third is gone".
func (c Colour) Trade() say.Text {
	return say.Trade(fret.Swap{Adds: c.Adds, GivesUp: c.GivesUp, Spare: !c.Lost})
}

// TradeOf says the same beside a plain shape: where the colour is made from another, that is named: "♭7 for the doubled root of 0402".
func (c Colour) TradeOf(plain fret.Shape) say.Text {
	if slices.Equal(c.From, plain) {
		return c.Trade()
	}
	return say.Of("{} of {}", c.Trade(), say.Shape(c.From))
}

// KeysTold says in which keys a song is, in turn: "E major, then F major".
func (a Arrangement) KeysTold() say.Text {
	keys := a.Keys()
	told := say.Of("{}", say.Key(keys[0]))
	for _, k := range keys[1:] {
		told = say.Of("{}, then {}", told, say.Key(k))
	}
	return told
}

// leadWords are the ways in which the added note goes on, as they are said.
var leadWords = map[Lead]say.Text{Leaps: {}, Steps: say.Of("goes on by a step"), Stays: say.Of("stays in the next chord")}

// Marks says what should be known of a colour: what it rubs against, that its note is not of the key, that it asks more of the
// hand, and how it leads on. It says nothing if there is nothing to know.
func (c Colour) Marks() say.Text {
	var out []say.Text
	if c.Rubbing() {
		out = append(out, say.Of("rubs against {}", say.Note(c.Chord.Root.Up(c.Rubs))))
	}
	if !c.InKey() {
		out = append(out, say.Of("not of the key"))
	}
	if c.Harder {
		out = append(out, say.Of("harder to hold"))
	}
	if lead := leadWords[c.Leads]; !lead.IsZero() {
		out = append(out, lead)
	}
	if out == nil {
		return say.Text{}
	}
	return say.Of("{}", say.Commas(out...))
}

// Said says which string keeps which note, and what that is in each chord: "g string open: G is the 5 of C, ♭7 of Am".
func (th Thread) Said(t *fret.Tuning) say.Text {
	where := say.Of("{} string at fret {}", say.String{On: t, Number: th.String}, say.Number(th.Fret))
	if th.Fret == 0 {
		where = say.Of("{} string open", say.String{On: t, Number: th.String})
	}
	var in []say.Text
	for _, k := range th.In {
		in = append(in, say.Of("{} in {}", say.Degree(k.Tone), say.Chord(k.Of)))
	}
	return say.Of("{}: {} is {}", where, say.Note(th.Note), say.Commas(in...))
}
