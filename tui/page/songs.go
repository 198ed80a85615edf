package page

import (
	"strconv"

	"sparetone/drills/practice"
	"sparetone/progress"
	"sparetone/theory/say"
)

// Songs lists the songs of one's own that are kept, to go on with one, or to begin another.
type Songs struct {
	kept   []progress.Song
	failed error
	mark   int
	asked  string // the song of which it was asked whether it is to be taken away
	back   func() Place
}

func newSongs(w *Walk, back func() Place) *Songs {
	s := &Songs{back: back}
	s.kept, s.failed = w.KeptSongs()
	return s
}

// Page implements Place.
func (s *Songs) Page(w *Walk) Page {
	p := Page{Blocks: []Block{title("Songs of your own"), Gap{}}, Ask: askSongs, Lead: askSongs}
	write := called("new song", func(string) Next { return Next{To: newWriting(w, s), Hush: true} })
	open := called("open song", func(path string) Next { return s.opens(w, path) })
	back := leads("back", s.back)
	if s.failed != nil {
		p.Blocks, p.Acts = append(p.Blocks, failing(s.failed)...), []Act{back}
		return p
	}
	if len(s.kept) == 0 {
		p.Blocks = append(p.Blocks, Sentence{Text: noSongs, Tone: Quiet})
		p.Acts, p.Ask, p.Lead = []Act{write, open, back}, askFirstSong, askFirstSong
		return p
	}
	list := Choice{Mark: &s.mark, Pick: func(n int) Next { return s.goesOn(w, n) }}
	for _, one := range s.kept {
		name := practice.TitleOfSong(one)
		list.Lines = append(list.Lines, Line{Text: name, More: one.At.In(w.Setup.Now().Location()).Format("2 January"), Names: []string{name.Screen()}})
	}
	for i := range list.Lines[:min(9, len(list.Lines))] {
		list.Lines[i].Key = strconv.Itoa(i + 1)
	}
	p.Blocks = append(p.Blocks, list)
	p.Acts = list.acts("open it", write, open, called("take away", func(typed string) Next { return s.takesAway(w, typed) }), back)
	p.Take = list.take
	return p
}

// goesOn goes on with a song that is kept.
func (s *Songs) goesOn(w *Walk, n int) Next {
	work, err := w.KeptSong(s.kept[n])
	if err != nil {
		return refused(err)
	}
	return newSong(work, s.back)
}

// opens begins a song from a file, or first asks from which.
func (s *Songs) opens(w *Walk, path string) Next {
	take := func(typed string) Next {
		work, err := w.OpenSong(typed)
		if err != nil {
			return Next{Said: practice.SentenceOf(err), Wrong: true}
		}
		return newSong(work, s.back)
	}
	if path != "" {
		return take(path)
	}
	return Next{To: &Prompt{Title: say.Of("Which file?"), About: aboutOpening, Field: Field{Label: "File  ", Does: "open it", Most: longestPath}, Back: s, Take: take}}
}

// takesAway takes a song away, once that was asked for twice.
func (s *Songs) takesAway(w *Walk, typed string) Next {
	n := s.mark
	if typed != "" {
		number, err := strconv.Atoi(Unstopped(typed))
		if err != nil || number < 1 || number > len(s.kept) {
			return Next{Said: saySongs(len(s.kept)), Wrong: true}
		}
		n = number - 1
	}
	name := practice.TitleOfSong(s.kept[n])
	if s.asked != s.kept[n].Song {
		s.asked = s.kept[n].Song
		return Next{Said: say.Of("Once more takes “{}” away.", name)}
	}
	if err := w.TakeAway(s.kept[n]); err != nil {
		return refused(err)
	}
	*s = *newSongs(w, s.back)
	return Next{Said: say.Of("“{}” is taken away.", name), Anew: true}
}

// Wording of the places of songs.
const (
	askSongs     = "Type a number to go on with a song, or new to write one."
	askFirstSong = "Type new to write a song, or open and a file."
	askWriting   = "Type the song, a line at a time, and then done."
	leadWriting  = "Each line that is typed is a line of the song, an empty one as well."
	askSongPlace = "Type play to hear the song, next for the next chord, or the number of a bar."
)

var (
	noSongs      = say.Of("None is kept yet. A song is written as players do: bars between |, or chords in [brackets] in the words, or above them.")
	aboutOpening = say.Of("A chart as text, or a MusicXML file.")
	aboutWriting = say.Of("Such as: | C | Am | F G | C |")
	aboutSheet   = say.Of("A sheet, if the file's name ends with .html, .pdf or .svg; the song alone as .txt, a lesson of it as .toml. Nothing is written over.")
)

func saySongs(n int) say.Text {
	if n == 1 {
		return say.Of("There is one song: 1.")
	}
	return say.Of("There are songs 1 to {}.", say.Number(n))
}
