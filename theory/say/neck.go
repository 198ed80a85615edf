package say

import (
	"strconv"

	"sparetone/theory/fret"
)

// String is a string of an instrument as the picture of its neck calls it: g, or low E.
type String struct {
	On     *fret.Tuning
	Number int
}

func (s String) print(p *printer) {
	called, spoken := s.On.StringCalled(s.Number), s.On.StringSpoken(s.Number)
	if len(called) == 1 { // a small letter is another string than a large one
		p.large = p.large && p.face == aloud && spoken != called
	}
	p.either(called, spoken)
}

// Strings are strings of an instrument by their numbers, as they are called: g and A.
func Strings(on *fret.Tuning, numbers ...int) Fact {
	out := make([]String, len(numbers))
	for i, n := range numbers {
		out[i] = String{on, n}
	}
	return And(out...)
}

// TheStrings names strings by their numbers and says that they are: the C string, the g and A strings.
func TheStrings(on *fret.Tuning, numbers ...int) Fact {
	return Of("the {} {}", Strings(on, numbers...), Agree{len(numbers), "string", "strings"})
}

// Shape is a fret for each string: x32010, said fret by fret.
type Shape fret.Shape

func (s Shape) print(p *printer) {
	if p.face != aloud {
		p.write(fret.Shape(s).String())
		return
	}
	for i, f := range s {
		if i > 0 {
			p.write(" ")
		}
		Fret(f).print(p)
	}
}

// Fret is one fret of a shape: 0, 12, or x for a string that is muted.
type Fret int

func (f Fret) print(p *printer) {
	if int(f) == fret.Muted {
		p.write("x")
		return
	}
	p.write(strconv.Itoa(int(f)))
}

// Instrument is an instrument by the title of its tuning.
type Instrument struct{ On *fret.Tuning }

func (i Instrument) print(p *printer) { p.either(i.On.Title, i.On.TitleSpoken()) }
