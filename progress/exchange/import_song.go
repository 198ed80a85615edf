package exchange

import (
	"encoding/json"
	"errors"
	"fmt"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// songLine is a song as it is exported: as it was kept last.
type songLine struct {
	Kind string `json:"kind"` // song
	ID   string `json:"id"`
	Song string `json:"song"`
	whoseLine
	At     string `json:"at"`
	Chart  string `json:"chart"` // empty if it was taken away
	Tuning string `json:"tuning"`
	Rich   int    `json:"rich"`
	Shapes string `json:"shapes"`
	Sounds string `json:"sounds"`
}

func songLineOf(s tables.SongRow, of whoseLine) songLine {
	return songLine{Kind: "song", ID: s.ID, Song: s.Song.Song, whoseLine: of, At: utc(s.At), Chart: s.Chart, Tuning: s.Tuning, Rich: s.Rich, Shapes: s.Shapes, Sounds: s.Sounds}
}

// song reads a song.
func (o jsonObject) song() (s progress.Song, err error) {
	for _, field := range []struct {
		name string
		to   *string
	}{{"id", &s.ID}, {"song", &s.Song}, {"chart", &s.Chart}, {"tuning", &s.Tuning}, {"shapes", &s.Shapes}, {"sounds", &s.Sounds}} {
		if o[field.name] == nil {
			return s, missing(field.name)
		}
		if *field.to, err = o.text(field.name); err != nil {
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

// song takes in a song, unless what is kept of it is as late.
func (in *importing) song(o jsonObject) error {
	s, err := o.song()
	if err != nil {
		return err
	}
	of, err := o.whose()
	if err == nil {
		err = in.is(of)
	}
	if err != nil {
		return err
	}
	row := tables.NewSongRow(s, in.id)
	kept, there, err := tables.LatestSong(in.tx, s.Song)
	if err != nil {
		return err
	}
	if there && kept.ID == s.ID {
		kept.By = row.By
		if kept.Sum() != row.Seal {
			return fmt.Errorf("this is another than the song which is kept under the id %s", progress.Short(s.ID))
		}
		return nil
	}
	if there && (kept.At > row.At || kept.At == row.At && kept.ID > row.ID) {
		return nil
	}
	added, err := row.Add(in.tx)
	if err == nil && !added {
		return fmt.Errorf("the id %s is that of another song", progress.Short(s.ID))
	}
	in.done.Songs++
	return err
}
