package exported

import (
	"encoding/json"
	"errors"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// Song is a song as it is exported: as it was kept last.
type Song struct {
	Kind string `json:"kind"` // song
	ID   string `json:"id"`
	Song string `json:"song"`
	Owner
	At     string `json:"at"`
	Chart  string `json:"chart"` // empty if it was taken away
	Tuning string `json:"tuning"`
	Rich   int    `json:"rich"`
	Shapes string `json:"shapes"`
	Sounds string `json:"sounds"`
}

// SongOf returns a song as it is exported, with whose practice it is of.
func SongOf(s tables.SongRow, of Owner) Song {
	return Song{Kind: "song", ID: s.ID, Song: s.Song.Song, Owner: of, At: UTC(s.At), Chart: s.Chart, Tuning: s.Tuning, Rich: s.Rich, Shapes: s.Shapes, Sounds: s.Sounds}
}

// Song reads a song.
func (o Object) Song() (s progress.Song, err error) {
	for _, field := range []struct {
		name string
		to   *string
	}{{"id", &s.ID}, {"song", &s.Song}, {"chart", &s.Chart}, {"tuning", &s.Tuning}, {"shapes", &s.Shapes}, {"sounds", &s.Sounds}} {
		if o[field.name] == nil {
			return s, missing(field.name)
		}
		if *field.to, err = o.Text(field.name); err != nil {
			return s, err
		}
	}
	for _, name := range []string{"at", "rich"} {
		if o[name] == nil {
			return s, missing(name)
		}
	}
	at, err := o.moment("at")
	if err != nil {
		return s, err
	}
	s.At = time.UnixMilli(at).UTC()
	if json.Unmarshal(o["rich"], &s.Rich) != nil || string(o["rich"]) == "null" {
		return s, errors.New("rich is a whole number without quotes")
	}
	return s, s.Valid()
}
