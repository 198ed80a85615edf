package store

import (
	"cmp"
	"database/sql"
	"slices"
	"time"

	"sparetone/progress"
	"sparetone/progress/tables"
)

// KeepSong keeps a song, or holds on to it as Record does. A song that was kept before is kept anew; one with an empty chart is taken
// away. A song without a Song is a new one, and gets one. It returns the song as it is kept.
func (f *File) KeepSong(s progress.Song) (progress.Song, error) {
	s.ID, s.At = progress.NewID(), f.now().Truncate(time.Millisecond)
	s.Song = cmp.Or(s.Song, s.ID)
	s.Chart = progress.TidyChart(s.Chart)
	if err := s.Valid(); err != nil {
		return s, err
	}
	return s, f.keepDeed(deed{do: func(tx *sql.Tx) error { return tables.KeepSong(tx, s) }})
}

// Songs returns the songs that are kept, each as it was kept last, the latest first.
func (f *File) Songs() (all []progress.Song, err error) {
	err = f.read(func(tx *sql.Tx) error {
		latest, err := tables.LatestSongs(tx)
		for _, row := range slices.Backward(latest) {
			if row.Chart != "" {
				all = append(all, row.Kept())
			}
		}
		return err
	})
	return all, tables.Plain(err)
}
