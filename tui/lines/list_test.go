package lines

import (
	"context"
	"strings"
	"testing"
	"time"

	"sparetone/drills/practice"
	"sparetone/progress/store"
	"sparetone/synth/playback"
	"sparetone/theory/say"
	"sparetone/tui/page"
	"sparetone/tui/page/home"
)

// things is a place with a long list; what is picked ends the program.
type things struct{ picked int }

func (t *things) Page(*page.Walk) page.Page {
	c := page.Choice{SaidFirst: 10}
	for n := range 13 {
		c.Lines = append(c.Lines, page.Line{Text: say.Of("thing {}", say.Number(n))})
	}
	return page.Page{Blocks: []page.Block{c}, Ask: "Type a number.", Take: func(typed string) page.Next {
		if typed != "13" {
			return page.Next{Unknown: true}
		}
		t.picked = 12
		return page.Next{Ends: true}
	}}
}

// A long list is said in two parts, and what is in the second can be picked before it was said.
func TestListsSayMore(t *testing.T) {
	file, err := store.InMemory(time.Now)
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	out, place := &strings.Builder{}, &things{}
	r := &reader{Walk: home.NewWalk(practice.App{Speaker: playback.None(playback.StartVolume)}), ctx: context.Background(), out: out, lines: make(chan string, 3)}
	for _, line := range []string{"more", "more", "13"} {
		r.lines <- line
	}
	r.Cautioned = true
	r.Setup.File = file
	for next := (page.Next{To: place}); r.apply(next); {
		next = r.next()
	}
	if place.picked != 12 {
		t.Errorf("picked %d", place.picked)
	}
	for _, want := range []string{"10: thing 9\nType a number. more says the other 3.", "11: thing 10", `"more" means nothing here`} {
		if !strings.Contains(out.String(), want) {
			t.Errorf("%q is not said in\n%s", want, out)
		}
	}
}
