package practice

import (
	"sparetone/drills/course"
	"sparetone/drills/practice/setting"
	"sparetone/drills/practice/songwork"
	"sparetone/progress"
)

// Chosen returns what the student has chosen for good, as it is now.
func (p *App) Chosen() setting.Values { return p.Settings }

// NewSong begins a song from a chart, or the text of a MusicXML file. The error says where the chart cannot be read.
func (p *App) NewSong(chart string) (*songwork.Work, error) { return songwork.New(p, chart) }

// OpenSong begins a song from a file, whose path a person typed.
func (p *App) OpenSong(path string) (*songwork.Work, error) {
	return songwork.Open(p, fromHome(path))
}

// KeptSongs returns the songs that are kept, the latest first.
func (p *App) KeptSongs() ([]progress.Song, error) { return p.File().Songs() }

// KeptSong goes on with a song that was kept.
func (p *App) KeptSong(kept progress.Song) (*songwork.Work, error) { return songwork.GoOn(p, kept) }

// TakeAway takes a kept song away.
func (p *App) TakeAway(kept progress.Song) error {
	kept.Chart = ""
	_, err := p.File().KeepSong(kept)
	return err
}

// OfSong is practising a song: its chords, in its shapes, plain and coloured, in its key.
func OfSong(w *songwork.Work) Way {
	hold, items := w.Practised()
	return Way{Title: w.Title(), Hold: &hold, Course: course.Only(items)}
}

// SongWay is practising a chart, or the text of a MusicXML file, that is not kept.
func (p *App) SongWay(chart string) (Way, error) {
	w, err := songwork.Unkept(p, chart)
	if err != nil {
		return Way{}, err
	}
	return OfSong(w), nil
}
