package page

import (
	"slices"

	"sparetone/drills/practice"
	"sparetone/theory/say"
)

// Today is the place to begin: what the next minutes hold and why, and the ways to the rest.
type Today struct {
	mark int
	days []bool // practised, the last one today; nil until it was looked up
}

// Page implements Place.
func (t *Today) Page(w *Walk) Page {
	part := func(id string, way practice.Way) Act { return w.only(id, way) }
	back := func() Place { return t }
	ways := []Act{
		called("begin", func(string) Next { return w.begin(nil) }),
		part("ear", practice.ByEar),
		part("eye", practice.ByEye),
		leads("weak", func() Place { return newWeak(w) }),
		leads("drills", func() Place { return &Drills{} }),
		leads("known", func() Place { return newKnowledge(w, func() Next { return Next{To: t, Hush: true} }) }),
		leads("course", func() Place { return newCourse(w) }),
		called("try", func(string) Next { return openBench(w, back) }),
		leads("songs", func() Place { return newSongs(w, back) }),
		leads("lessons", func() Place { return newLessons(w, back) }),
		called("hand in", func(string) Next { return w.handIn(t) }),
		leads("settings", func() Place { return &Settings{back: back} }),
	}
	if w.Microphone != nil {
		ways = slices.Insert(ways, len(ways)-1, w.tunes(back))
	}
	list := Choice{Mark: &t.mark, Aloud: func(int) say.Text { return say.Text{} }, Pick: func(n int) Next { return ways[n].Do("") }}
	for _, a := range ways {
		line := Line{Key: a.Keys, Text: say.Of(a.Does)}
		if a.Does == acts[a.ID].Does { // not where it is all of practice again
			line.More = moreOf[a.ID]
		}
		list.Lines = append(list.Lines, line)
	}
	begin := ways[0]
	begin.Do = func(string) Next { return ways[t.mark].Do("") }
	p := Page{
		Blocks: []Block{title("Today"), Gap{}},
		Acts:   append(append([]Act{begin}, ways[1:]...), eye("mark"), called("leave", func(string) Next { return w.Leave() }).on("q esc").As("leave")),
		Ask:    sayWays(ways),
	}
	if w.Notice != "" {
		p.Blocks = append(p.Blocks, Seen{Text: sayWrong(w.Notice), Tone: Wrong}, Gap{})
	}
	for _, l := range practice.Outlook(&w.App) {
		p.Blocks = append(p.Blocks, Sentence{Text: l})
	}
	p.Blocks = append(p.Blocks, Gap{})
	if t.days == nil {
		t.days = practice.Practised(&w.App)
	}
	if slices.Contains(t.days, true) {
		p.Blocks = append(p.Blocks, Weeks(t.days), Gap{})
	}
	p.Blocks = append(p.Blocks, list)
	if !w.Cautioned {
		p.Blocks = append(p.Blocks, Gap{Roomy: true}, Seen{say.Of(practice.Cautions), Quiet, true})
	}
	return p
}
