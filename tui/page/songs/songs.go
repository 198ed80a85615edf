// Package songs is the places of songs of one's own: the list of them, where one is written, and the song itself, played or played along.
package songs

import (
	"strconv"

	"sparetone/drills/practice/songwork"
	"sparetone/progress"
	"sparetone/tui/page"
)

// List lists the songs of one's own that are kept, to go on with one, or to begin another.
type List struct {
	kept       []progress.Song
	failed     error  // why songs could not be listed; nil if they were
	mark       int    // index among kept
	toTakeAway string // id of the song of which it was asked whether it is to be taken away; empty for none
	back       func() page.Place
}

func NewList(w *page.Walk, back func() page.Place) *List {
	s := &List{back: back}
	s.kept, s.failed = w.KeptSongs()
	return s
}

// Page implements Place.
func (s *List) Page(w *page.Walk) page.Page {
	p := page.Page{Blocks: []page.Block{page.Title(titleSongsOfYourOwn), page.Gap{}}, Ask: askSongs, HelpBegins: askSongs}
	write := page.Called("new song", func(string) page.Next { return page.Next{To: s.writes(w), Silence: true} })
	open := page.Called("open song", func(path string) page.Next { return s.opens(w, path) })
	back := page.Leads("back", s.back)
	if s.failed != nil {
		p.Blocks, p.Acts = append(p.Blocks, page.Failing(s.failed)...), []page.Act{back}
		return p
	}
	if len(s.kept) == 0 {
		p.Blocks = append(p.Blocks, page.Sentence{Text: noSongs, Tone: page.Quiet})
		p.Acts, p.Ask, p.HelpBegins = []page.Act{write, open, back}, askFirstSong, askFirstSong
		return p
	}
	list := page.Choice{Mark: &s.mark, Pick: func(n int) page.Next { return s.goesOn(w, n) }}
	for _, one := range s.kept {
		name := songwork.TitleOfSong(one)
		list.Lines = append(list.Lines, page.Line{Text: name, More: one.At.In(w.Setup.Now().Location()).Format("2 January"), Names: []string{name.Screen()}})
	}
	for i := range list.Lines[:min(9, len(list.Lines))] {
		list.Lines[i].Key = strconv.Itoa(i + 1)
	}
	p.Blocks = append(p.Blocks, list)
	p.Acts = list.Acts("open it", write, open, page.Called("take away", func(typed string) page.Next { return s.takesAway(w, typed) }), back)
	p.Take = list.Take
	return p
}

// writes is where a new song is written.
func (s *List) writes(w *page.Walk) *Writing {
	return &Writing{rewriting: -1, back: func() page.Place { return s }, opens: func(work *songwork.Work) page.Next { return s.song(w, work) }}
}

// song goes to a song, which leads back to the list as it is then.
func (s *List) song(w *page.Walk, work *songwork.Work) page.Next {
	return page.Next{To: &Song{work: work, back: func() page.Place { return NewList(w, s.back) }}, Silence: true}
}

// goesOn goes on with a song that is kept.
func (s *List) goesOn(w *page.Walk, n int) page.Next {
	work, err := w.KeptSong(s.kept[n])
	if err != nil {
		return page.Refused(err)
	}
	return s.song(w, work)
}

// opens begins a song from a file, or first asks from which.
func (s *List) opens(w *page.Walk, path string) page.Next {
	take := func(typed string) page.Next {
		work, err := w.OpenSong(typed)
		if err != nil {
			return page.Mistyped(err)
		}
		return s.song(w, work)
	}
	ask := &page.Prompt{Title: askSongFile, About: aboutOpening, Field: page.Field{Label: "File  ", Does: "open it", MaxLength: page.LongestPath}, Back: s, Take: take}
	return ask.TakeOrAsk(path)
}

// takesAway takes a song away, once that was asked for twice.
func (s *List) takesAway(w *page.Walk, typed string) page.Next {
	n := s.mark
	if typed != "" {
		number, err := strconv.Atoi(page.Unstopped(typed))
		if err != nil || number < 1 || number > len(s.kept) {
			return page.Next{Said: saySongs(len(s.kept)), Wrong: true}
		}
		n = number - 1
	}
	name := songwork.TitleOfSong(s.kept[n])
	if s.toTakeAway != s.kept[n].Song {
		s.toTakeAway = s.kept[n].Song
		return page.Next{Said: sayTakesAway(name)}
	}
	if err := w.TakeAway(s.kept[n]); err != nil {
		return page.Refused(err)
	}
	*s = *NewList(w, s.back)
	return page.Next{Said: sayTakenAway(name), NewPage: true}
}
