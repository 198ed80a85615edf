package whole

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
)

// NotThere reports whether nothing lies at a path.
func NotThere(path string) bool {
	_, err := os.Lstat(path)
	return errors.Is(err, fs.ErrNotExist)
}

// MakeFolder makes a folder, readable by its owner only, and sees to it that it outlives a power cut.
func MakeFolder(path string) error {
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		return nil
	}
	if err := os.MkdirAll(path, 0o700); err != nil {
		return err
	}
	SyncFolder(filepath.Dir(path))
	return nil
}

// Brief takes the path out of an error of the file system: the caller has said it.
func Brief(err error) error {
	var at *fs.PathError
	if errors.As(err, &at) {
		return at.Err
	}
	return err
}
