package store

import (
	"os"

	"sparetone/progress/whole"
)

// found is which file lies at a path, and which log beside it.
type found struct{ file, log os.FileInfo }

// find looks at what lies at a path. A log need not be there.
func find(path string) (found, error) {
	file, err := os.Stat(path)
	if err != nil {
		return found{}, whole.Brief(err)
	}
	log, _ := os.Stat(path + "-wal")
	return found{file, log}, nil
}
