package store

import (
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"

	"sparetone/progress/whole"
)

// restoring is the ending of the name that a file has while it is restored. What is restored is first written whole, beside the file and under a name of its own. From then on it is only
// names that change: the log and the file are set aside, and the new one takes its place. Whoever is interrupted
// in that finds it finished by the next one to open the file.
const restoring = ".restored"

// asideForm is how the time stands in the name of a file that is set aside.
const asideForm = "-set-aside-2006-01-02-150405.000"

// asideOf returns where the present file goes: its name with the time at which what takes its place was written.
func asideOf(path string) (string, error) {
	about, err := os.Stat(path + restoring)
	if err != nil {
		return "", whole.Brief(err)
	}
	after := filepath.Ext(path)
	return strings.TrimSuffix(path, after) + about.ModTime().Format(asideForm) + after, nil
}

// finishRestore puts what is restored in its place, if there is anything: what is done already stays done.
func finishRestore(path string) error {
	if whole.NotThere(path + restoring) {
		return nil
	}
	aside, err := asideOf(path)
	if err != nil {
		return err
	}
	for _, step := range [][2]string{{path + "-wal", aside + "-wal"}, {path, aside}} {
		if whole.NotThere(step[0]) {
			continue
		}
		if !whole.NotThere(step[1]) {
			return fmt.Errorf("%s cannot be set aside: there is a file %s", step[0], step[1])
		}
		if err := os.Rename(step[0], step[1]); err != nil && !errors.Is(err, os.ErrNotExist) {
			return err
		}
	}
	_ = os.Remove(path + "-shm") // it was of the log, and holds nothing that is not in it
	if err := os.Rename(path+restoring, path); err != nil && !errors.Is(err, os.ErrNotExist) {
		return err
	}
	whole.SyncFolder(filepath.Dir(path))
	return nil
}
