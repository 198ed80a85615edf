package main

import (
	"bytes"
	"context"
	"encoding/json"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"

	"sparetone/drills/practice"
	"sparetone/progress/whole"
	"sparetone/synth"
	"sparetone/theory"
)

// freeFolder refuses a folder that a paper cannot be written to without harm: one that holds something, unless it is
// forced, and what is no folder.
func freeFolder(dir string, force bool) error {
	files, err := os.ReadDir(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		if _, err := os.Lstat(dir); err == nil {
			return callWrong("--out: %s is a link that leads nowhere; name another folder", theory.Clean(dir))
		}
		return nil
	case err != nil:
		if there, stat := os.Stat(dir); stat == nil && !there.IsDir() {
			return callWrong("--out: %s is a file; name a folder, which is made if it is not there", theory.Clean(dir))
		}
		return fault(err)
	case force || len(files) == 0:
		return nil
	}
	what := "files"
	if slices.ContainsFunc(files, func(f fs.DirEntry) bool { return f.Name() == questionRows }) {
		what = "a paper"
	}
	return callWrong("--out: %s holds %s already; name another folder, or write into this one with --force", theory.Clean(dir), what)
}

// write writes the paper to a folder. A folder that is not there yet appears with the whole paper in it. In one that is
// there, the paper is made whole first and then moved to its place, its rows last: a folder that has them has the whole
// paper, and nothing of an older one.
func (p paper) write(ctx context.Context, dir string) error {
	if _, err := os.Stat(dir); err == nil {
		return whole.In(dir, 0o700, func(made string) error {
			if err := p.fill(ctx, made); err != nil {
				return err
			}
			return replacePaper(dir, made)
		})
	}
	if err := os.MkdirAll(filepath.Dir(filepath.Clean(dir)), 0o777); err != nil {
		return err
	}
	return whole.Folder(filepath.Clean(dir), 0o777, func(made string) error { return p.fill(ctx, made) })
}

// fill writes the files of the paper to a folder that is empty.
func (p paper) fill(ctx context.Context, dir string) error {
	for n, q := range p.questions {
		if ctx.Err() != nil {
			return context.Cause(ctx)
		}
		if len(q.Sounds) == 0 {
			continue
		}
		sound, err := practice.Render(q.Voice, q.Sounds, theory.StandardA4)
		if err != nil {
			return err
		}
		if err := whole.Synced(filepath.Join(dir, wavName(n)), forAll, func(f *os.File) error { return synth.WriteWAV(f, sound, 16) }); err != nil {
			return err
		}
	}
	var rows bytes.Buffer
	enc := json.NewEncoder(&still{to: &rows, json: true})
	enc.SetEscapeHTML(false)
	for n := range p.questions {
		if err := enc.Encode(p.row(n)); err != nil {
			return err
		}
	}
	for name, text := range map[string][]byte{questionSheet: p.sheet(), answerKey: p.key(), questionRows: rows.Bytes()} {
		if err := whole.Synced(filepath.Join(dir, name), forAll, func(f *os.File) error { _, err := f.Write(text); return err }); err != nil {
			return err
		}
	}
	whole.SyncFolder(dir)
	return nil
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
		if !isSound(name) && name != questionSheet && name != answerKey && name != questionRows {
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
