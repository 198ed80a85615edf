package main

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/whole"
	"sparetone/theory"
)

// freeFolder refuses a folder that a paper cannot be written to without harm: one that holds something, unless it is
// forced, and what is no folder.
func freeFolder(dir string, force bool) error {
	files, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(dir); err == nil {
			return command.Wrong("--out: %s is a link that leads nowhere; name another folder", theory.Clean(dir))
		}
		return nil
	case err != nil:
		if there, stat := os.Stat(dir); stat == nil && !there.IsDir() {
			return command.Wrong("--out: %s is a file; name a folder, which is made if it is not there", theory.Clean(dir))
		}
		return command.Fault(err)
	case force || len(files) == 0:
		return nil
	}
	what := "files"
	if slices.ContainsFunc(files, func(f fs.DirEntry) bool { return f.Name() == questionRows }) {
		what = "a paper"
	}
	return command.Wrong("--out: %s holds %s already; name another folder, or write into this one with --force", theory.Clean(dir), what)
}

// writePapers writes a paper to a folder, or each of several versions to one of its own in there. A folder that is not there yet appears
// with all in it. In one that is there, all is made whole first and then moved to its place, the rows of a paper last: a folder that has
// them has the whole paper, and nothing of an older one.
func writePapers(ctx context.Context, dir string, all []writtenPaper) error {
	fill := func(made string) error {
		if len(all) == 1 {
			return all[0].fill(ctx, made)
		}
		for _, p := range all {
			if err := whole.Folder(filepath.Join(made, p.Version), 0o777, func(made string) error { return p.fill(ctx, made) }); err != nil {
				return err
			}
		}
		return nil
	}
	if _, err := os.Stat(dir); err == nil {
		return whole.In(dir, 0o700, func(made string) error {
			if err := fill(made); err != nil {
				return err
			}
			return replacePaper(dir, made)
		})
	}
	if err := os.MkdirAll(filepath.Dir(filepath.Clean(dir)), 0o777); err != nil {
		return err
	}
	return whole.Folder(filepath.Clean(dir), 0o777, fill)
}

// isSound reports whether a file is called as the sounds of a paper are.
var isSound = regexp.MustCompile(`^\d{3}\.wav$`).MatchString

// replacePaper takes the files of a paper out of a folder, its rows first, and moves those of another one in, its rows
// last. A folder or a pipe of such a name is none of a paper's: then nothing is touched.
func replacePaper(dir, made string) error {
	there, err := os.ReadDir(dir)
	if err != nil {
		return err
	}
	old := []string{questionRows}
	for _, entry := range there {
		name := entry.Name()
		if !isSound(name) && !slices.Contains(paperFiles, name) {
			continue
		}
		if kind := entry.Type(); !kind.IsRegular() && kind != fs.ModeSymlink {
			return &fs.PathError{Op: "replace", Path: filepath.Join(dir, name), Err: errors.New("this is not a file")}
		}
		old = append(old, name)
	}
	for _, name := range old {
		if err := os.Remove(filepath.Join(dir, name)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return err
		}
	}
	files, err := os.ReadDir(made)
	if err != nil {
		return err
	}
	last := func(f fs.DirEntry) int { return map[bool]int{true: 1}[f.Name() == questionRows] }
	slices.SortStableFunc(files, func(a, b fs.DirEntry) int { return last(a) - last(b) })
	for _, f := range files {
		if err := os.Rename(filepath.Join(made, f.Name()), filepath.Join(dir, f.Name())); err != nil {
			return err
		}
	}
	whole.SyncFolder(dir)
	return nil
}
