package say

// And is facts joined as a sentence does: C, E and G.
func And[F Fact](facts ...F) Fact { return joined[F]{facts, ", ", " and "} }

// Commas is facts with commas between them.
func Commas[F Fact](facts ...F) Fact { return joined[F]{facts, ", ", ", "} }

// Clauses is parts of a sentence with semicolons between them.
func Clauses[F Fact](facts ...F) Fact { return joined[F]{facts, "; ", "; "} }

// Row is facts in a row, as notes and tones are written: C E G.
func Row[F Fact](facts ...F) Fact { return joined[F]{facts, " ", " "} }

type joined[F Fact] struct {
	facts         []F
	between, last string
}

func (j joined[F]) print(p *printer) {
	for n, f := range j.facts {
		switch {
		case n == 0:
		case n == len(j.facts)-1:
			p.write(j.last)
		default:
			p.write(j.between)
		}
		f.print(p)
	}
}

// Alternatives is what one may choose from, with commas between: semicolons where one of them is a list itself.
func Alternatives(texts ...Text) Fact { return alternatives(texts) }

type alternatives []Text

func (a alternatives) print(p *printer) {
	for _, t := range a {
		if t.lists(p.face) {
			Clauses(a...).print(p)
			return
		}
	}
	Commas(a...).print(p)
}

// lists reports whether a text has a list in it that is written with commas.
func (t Text) lists(f face) bool {
	for _, fact := range t.facts {
		switch of := fact.(type) {
		case Numerals:
			return f == aloud
		case Text:
			if of.lists(f) {
				return true
			}
		case interface{ commas() bool }:
			if of.commas() {
				return true
			}
		}
	}
	return false
}

// commas reports whether the list is written with a comma.
func (j joined[F]) commas() bool {
	return j.between == ", " && len(j.facts) > 2 || j.last == ", " && len(j.facts) > 1
}
