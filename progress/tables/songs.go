package tables

import (
	"database/sql"
	"slices"

	"sparetone/progress"
	"sparetone/progress/clock"
)

// SongRow is a song as it was kept at one moment, as the file has it.
type SongRow struct {
	progress.Song
	At   int64 // milliseconds since 1970
	By   string
	Seal int64
}

// NewSongRow is the row of a song that came with an import, "" if it is kept here.
func NewSongRow(s progress.Song, by string) SongRow {
	row := SongRow{Song: s, At: clock.Writable(s.At).UnixMilli(), By: by}
	row.Seal = row.Sum()
	return row
}

// Sum is the sum over what a row says.
func (s SongRow) Sum() int64 {
	return SealOf(s.ID, s.Song.Song, s.At, s.Chart, s.Tuning, int64(s.Rich), s.Shapes, s.Sounds, s.By)
}

// Whole reports whether a row is what was written.
func (s SongRow) Whole() bool { return s.Seal == s.Sum() }

// Kept returns the song of a row.
func (s SongRow) Kept() progress.Song {
	out := s.Song
	out.At = whenKept(s.At)
	return out
}

// SongRows reads songs as they were kept, the earliest first, on a condition.
func SongRows(from Reader, where string, args []any, read func(SongRow) error) error {
	return Each(from, "SELECT id, song, at, chart, tuning, rich, shapes, sounds, import, seal FROM songs "+where+" ORDER BY at, id", args, func(row *sql.Rows) error {
		var s SongRow
		if err := row.Scan(&s.ID, &s.Song.Song, &s.At, &s.Chart, &s.Tuning, &s.Rich, &s.Shapes, &s.Sounds, &s.By, &s.Seal); err != nil {
			return err
		}
		return read(s)
	})
}

// Add adds a row, unless it is there, and reports whether it did.
func (s SongRow) Add(tx *sql.Tx) (added bool, err error) {
	done, err := tx.Exec("INSERT INTO songs (id, song, at, chart, tuning, rich, shapes, sounds, import, seal) VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?) ON CONFLICT DO NOTHING",
		s.ID, s.Song.Song, s.At, s.Chart, s.Tuning, s.Rich, s.Shapes, s.Sounds, s.By, s.Seal)
	if err != nil {
		return false, err
	}
	n, err := done.RowsAffected()
	return n > 0, err
}

// LatestSong returns what was kept last of a song; there is false if nothing was.
func LatestSong(from Reader, song string) (latest SongRow, there bool, err error) {
	err = SongRows(from, "WHERE song = ?", []any{song}, func(s SongRow) error {
		latest, there = s, true
		return nil
	})
	return latest, there, err
}

// LatestSongs returns what was kept last of each song, those that were taken away among them, the earliest first.
func LatestSongs(from Reader) (all []SongRow, err error) {
	err = SongRows(from, "", nil, func(s SongRow) error {
		all = slices.DeleteFunc(all, func(before SongRow) bool { return before.Song.Song == s.Song.Song })
		all = append(all, s)
		return nil
	})
	return all, err
}

// KeepSong keeps a song here, as the latest there is of it whatever the clocks say. What was kept of it before is done with.
func KeepSong(tx *sql.Tx, s progress.Song) error {
	before, there, err := LatestSong(tx, s.Song)
	if err != nil || before.ID == s.ID {
		return err
	}
	row := NewSongRow(s, "")
	if there && row.At <= before.At {
		row.At = before.At + 1
		row.Seal = row.Sum()
	}
	if _, err := row.Add(tx); err != nil {
		return err
	}
	_, err = tx.Exec("DELETE FROM songs WHERE song = ? AND id <> ?", s.Song, s.ID)
	return err
}

// SongsKept counts the songs that are kept and were not taken away.
func SongsKept(from Reader, count *int) error {
	return from.QueryRow("SELECT count(*) FROM (SELECT max(at), chart FROM songs GROUP BY song) WHERE chart <> ''").Scan(count)
}

// HasSongs reports whether a file has the table of songs, which those of earlier versions do not.
func HasSongs(from Reader) (has bool, err error) {
	err = from.QueryRow("SELECT EXISTS (SELECT 1 FROM sqlite_schema WHERE type = 'table' AND name = 'songs')").Scan(&has)
	return has, err
}
