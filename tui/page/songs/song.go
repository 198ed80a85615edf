package songs

import (
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"

	"sparetone/drills/practice"
	"sparetone/drills/practice/songwork"
	"sparetone/synth"
	"sparetone/theory/say"
	"sparetone/tui/draw/sheet"
	"sparetone/tui/page"
	"sparetone/tui/page/asking"
)

// Song is a song that somebody works on: its bars, the chord that is marked in its shapes, and how it sounds.
type Song struct {
	work     *songwork.Work
	mark     int  // the place that is marked
	barsSaid bool // in lines all bars were said
	back     func() page.Place

	through *songwork.Along // how the student plays the song through; nil if nobody does
	attempt *page.Attempt   // at through
}

// Page implements Place.
func (s *Song) Page(w *page.Walk) page.Page {
	k := s.work
	bars := k.Bars()
	s.mark = min(s.mark, len(k.Places)-1)
	now, playing := k.Playing()
	playing = playing && w.Speaker.Playing()
	block := page.Bars{All: bars, Mark: s.mark, Symbol: k.Symbol, Point: s.markPlace}
	if at := slices.IndexFunc(bars, func(b songwork.SongBar) bool { return slices.Contains(b.Played, now.Bar) }); playing && at >= 0 {
		block.Sounds = bars[at].Number
	}
	if s.through != nil {
		block.Lit = s.through.Lit
	}
	reveals := k.Reveals(s.mark)
	at := 0
	if len(reveals) > 1 && k.Heard(s.mark).Colour != nil {
		at = 1
	}
	bar := s.barOf(bars)
	p := page.Page{Blocks: []page.Block{page.Seen{Text: k.Title(), Tone: page.Strong}, page.Seen{Text: k.HeardTold(), Tone: page.Quiet, IfRoom: true}, page.Gap{IfRoom: true}, block, page.Gap{}}}
	if s.through != nil {
		p.Blocks = append(p.Blocks, page.Seen{Text: s.attempt.LastWord(), Tone: page.Strong})
	}
	if !s.barsSaid {
		p.Blocks = append(p.Blocks, page.Aloud(say.Of("{}. {} {}", k.Title(), k.KeyTold(), k.HeardTold())))
		for _, b := range bars {
			p.Blocks = append(p.Blocks, page.Aloud(s.barTold(b)))
		}
		p.Blocks = append(p.Blocks, page.Aloud(k.MovementTold()))
	}
	p.Blocks = append(p.Blocks, page.Aloud(sayAtBar(bar, k.Named(s.mark))))
	p.Blocks = append(p.Blocks, page.Shapes{All: reveals, Asked: reveals, At: at, Fingers: w.Fingers, Lines: k.Told(s.mark)})
	p.Blocks = append(p.Blocks, page.Gap{IfRoom: true}, page.Seen{Text: say.Of("{} {}", k.KeyTold(), k.MovementTold()), Tone: page.Quiet, IfRoom: true})
	p.Acts, p.Take = page.Only(s.acts(w, playing)...), func(typed string) page.Next { return s.toBar(typed) }
	p.Ask, p.HelpBegins = askSongPlace, askSongPlace
	return p
}

// barTold says what is in a bar.
func (s *Song) barTold(b songwork.SongBar) say.Text {
	var in []say.Text
	for _, n := range b.Places {
		in = append(in, s.work.Named(n))
	}
	return sayBar(b, in)
}

// acts are what can be done with a song.
func (s *Song) acts(w *page.Walk, playing bool) []page.Act {
	k := s.work
	does := func(id string, do func() error, said func() say.Text) page.Act {
		return page.Called(id, func(string) page.Next {
			err := do()
			s.barsSaid = true
			switch {
			case err != nil:
				return page.Refused(err)
			case said != nil:
				return page.Next{Said: said()}
			}
			return page.Next{NewPage: true}
		})
	}
	play := page.Called("play song", func(string) page.Next {
		if playing {
			k.Stop()
			return page.Next{Silence: true}
		}
		v := w.Session.On().Voices[0]
		return page.Next{Song: func() (*synth.Sound, error) { return k.Play(s.mark, v) }}
	})
	if playing {
		play.Does = "stop"
	}
	unheard := !w.MayHear()
	return []page.Act{
		play.OffIf(unheard, page.NothingToHear),
		does("switch", k.Switch, k.HeardTold),
		does("colour", func() error { return k.NextColour(s.mark) }, nil),
		does("plain shape", func() error { return k.NextShape(s.mark) }, nil),
		page.Leads("back", func() page.Place { k.Stop(); return s.back() }),
		s.alongAct(w, "along", false),
		s.alongAct(w, "in time", true),
		does("richer", func() error { return k.Richer(1) }, k.HeardTold),
		does("plainer", func() error { return k.Richer(-1) }, k.HeardTold),
		does("faster", func() error { return k.Faster(tempoStep) }, k.HeardTold),
		does("slower song", func() error { return k.Faster(-tempoStep) }, k.HeardTold),
		page.Called("practise", func(string) page.Next { k.Stop(); return s.practise(w) }),
		page.Called("hear chord", func(string) page.Next { return page.Next{Voice: w.Session.On().Voices[0], Sounds: k.Chord(s.mark)} }).OffIf(unheard, page.NothingToHear).If(len(k.Reveals(s.mark)) > 0),
		does("turns", k.Alternate, k.HeardTold),
		does("click", func() error { return k.Clicks(!k.Click) }, k.HeardTold),
		does("count in", func() error { k.CountIn = !k.CountIn; return nil }, func() say.Text { return countsIn[k.CountIn] }),
		page.Called("onward", func(string) page.Next { return s.steps(1) }),
		page.Called("backward", func(string) page.Next { return s.steps(-1) }),
		page.OnScreen("rows"),
		does("free", func() error { return k.Free(s.mark) }, nil).If(k.Settled(s.mark)),
		page.Called("all bars", func(string) page.Next { s.mark, s.barsSaid = s.places()[0], false; return page.Next{NewPage: true} }),
		page.Called("rewrite", func(string) page.Next {
			k.Stop()
			again := func() page.Place { return &Song{work: k, back: s.back} }
			return page.Next{To: &Writing{rewriting: -1, song: k, lines: strings.Split(k.Chart(), "\n"), back: again}, Silence: true}
		}),
		page.Called("sheet", func(path string) page.Next { return s.writeSheet(w, path) }),
		w.TellsFingers(k.Reveals(s.mark)...),
	}
}

// tempoStep is how much faster or slower a song gets at once, in beats a minute.
const tempoStep = 5

// barOf returns the number of the bar of the place that is marked; 0 for none.
func (s *Song) barOf(bars []songwork.SongBar) (number int) {
	for _, b := range bars {
		if slices.Contains(b.Places, s.mark) {
			return b.Number
		}
	}
	return 0
}

// markPlace marks a place.
func (s *Song) markPlace(place int) page.Next {
	s.mark, s.barsSaid = place, true
	return page.Next{NewPage: true}
}

// steps marks the next place that is written, or the one before.
func (s *Song) steps(by int) page.Next {
	places := s.places()
	at := max(0, slices.Index(places, s.mark))
	return s.markPlace(places[(at+by+len(places))%len(places)])
}

// toBar marks the first chord of a bar whose number was typed.
func (s *Song) toBar(typed string) page.Next {
	bars := s.work.Bars()
	n, err := strconv.Atoi(typed)
	if err != nil {
		return page.Next{Unknown: true}
	}
	for _, b := range bars {
		if b.Number == n && len(b.Places) > 0 {
			return s.markPlace(b.Places[0])
		}
	}
	return page.Next{Said: sayBars(bars[0].Number, bars[len(bars)-1].Number), Wrong: true}
}

// Moves reports whether the page changes by itself, as a song is played.
func (s *Song) Moves() bool {
	_, playing := s.work.Playing()
	return playing
}

// practise begins a practice of the song, which leads back to it.
func (s *Song) practise(w *page.Walk) page.Next {
	next := asking.PractisePart(w, practice.OfSong(s.work))
	if next.To != nil {
		w.BegunFrom, s.barsSaid = s, true
	}
	next.Silence = true
	return next
}

// sheets write a song, by the end of the file's name: as a sheet, as a chart, as a lesson.
var sheets = map[string]func(*os.File, *songwork.Work, sheet.Options) error{
	".svg": func(f *os.File, k *songwork.Work, o sheet.Options) error {
		_, err := f.WriteString(sheet.SVG(k.Arrangement, o))
		return err
	},
	".html": func(f *os.File, k *songwork.Work, o sheet.Options) error {
		_, err := f.WriteString(sheet.HTML(k.Arrangement, o))
		return err
	},
	".txt": func(f *os.File, k *songwork.Work, _ sheet.Options) error {
		_, err := f.WriteString(strings.TrimRight(k.Chart(), "\n") + "\n")
		return err
	},
	".toml": func(f *os.File, k *songwork.Work, _ sheet.Options) error {
		text, err := k.Lesson()
		if err == nil {
			_, err = f.WriteString(text)
		}
		return err
	},
	".pdf": func(f *os.File, k *songwork.Work, o sheet.Options) error {
		if err := sheet.Printable(k.Arrangement, o); err != nil {
			return err
		}
		return sheet.PDF(f, k.Arrangement, o)
	},
}

// writeSheet writes a sheet, or first asks where.
func (s *Song) writeSheet(w *page.Walk, path string) page.Next {
	take := func(typed string) page.Next {
		write := sheets[strings.ToLower(filepath.Ext(strings.TrimSpace(typed)))]
		if write == nil {
			return page.Next{Said: aboutSheet, Wrong: true}
		}
		said, err := w.WriteFile(typed, func(f *os.File) error { return write(f, s.work, sheet.Options{Left: w.Settings.Left}) })
		if err != nil {
			return page.Mistyped(err)
		}
		s.barsSaid = true
		return page.Next{To: s, Said: said}
	}
	ask := &page.Prompt{
		Title: askSheet, About: aboutSheet,
		Field: page.Field{Label: "File  ", Does: "write it", Text: w.ProposedFile(s.work.Title().Screen(), ".html"), MaxLength: page.LongestPath}, Back: s, Take: take,
	}
	return ask.TakeOrAsk(path)
}

// Work is the song.
func (s *Song) Work() *songwork.Work { return s.work }

// places are the places that are written, in their order.
func (s *Song) places() (all []int) {
	for _, b := range s.work.Bars() {
		all = append(all, b.Places...)
	}
	return all
}
