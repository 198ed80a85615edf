package exchange

import (
	"fmt"

	"sparetone/progress"
	"sparetone/progress/exported"
	"sparetone/progress/tables"
)

// song takes in a song, unless what is kept of it is as late.
func (in *importing) song(o exported.Object) error {
	s, err := o.Song()
	if err != nil {
		return err
	}
	if err := in.ownerOf(o); err != nil {
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
