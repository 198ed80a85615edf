package command

import (
	"errors"
	"io/fs"
	"os"

	"sparetone/theory"
)

// NamedFile is a file that an option names, and what writes it.
type NamedFile struct {
	Option, Path string
	Write        func(*os.File) error
}

// WriteFiles writes files, each whole or not at all. It refuses all of them if one is there already, unless it is forced to replace them.
func WriteFiles(files []NamedFile, force bool) error {
	for _, f := range files {
		if about, err := os.Lstat(f.Path); err == nil && (about.IsDir() || !force) {
			return isThereAlready(f.Option, f.Path)
		}
	}
	for _, f := range files {
		if err := WriteFile(f.Path, force, f.Write); errors.Is(err, fs.ErrExist) {
			return isThereAlready(f.Option, f.Path)
		} else if err != nil {
			return Fault(err)
		}
	}
	return nil
}

// isThereAlready is the error of an option that names a file to write where something lies. A folder is never replaced.
func isThereAlready(option, path string) error {
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		return Wrong("%s: %s is a folder; name a file", option, theory.Clean(path))
	}
	return Wrong("%s: %s is there already: name another file, or replace it with --force", option, theory.Clean(path))
}
