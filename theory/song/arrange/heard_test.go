package arrange

import (
	"slices"
	"testing"

	"sparetone/theory/song"
)

// A colour never makes two chords the same shape, such as C6 and Am7, however rich the path: their change would not be heard.
func TestEachChangeIsHeard(t *testing.T) {
	for _, chart := range []string{"| C | Am |", "| C | G | Em | D |", "| F | Dm | Bb | Gm |", "| C | Am | F | Dm | G | Em |", "| Cmaj7 | Em | Am7 | C |", "| C G | Em Am | Dm F | G7 |"} {
		for _, name := range []string{"ukulele", "guitar", "mandolin"} {
			for rich := range mostRich + 1 {
				s, err := song.Read(chart)
				if err != nil {
					t.Fatal(err)
				}
				a, err := Arrange(s, Wishes{Tuning: tuning(t, name), Rich: rich})
				if err != nil {
					t.Fatal(err)
				}
				for n, p := range a.Places {
					next := a.Places[(n+1)%len(a.Places)]
					if p.Chord.Symbol() != next.Chord.Symbol() && (p.Path.Colour != nil || next.Path.Colour != nil) && slices.Equal(p.Path.Shape, next.Path.Shape) {
						t.Errorf("%s on %s, rich %d: %s and %s are both %s", chart, name, rich, p.Chord.Symbol(), next.Chord.Symbol(), p.Path.Shape)
					}
				}
			}
		}
	}
}
