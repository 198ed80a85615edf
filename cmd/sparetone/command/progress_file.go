package command

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"time"

	"github.com/spf13/cobra"

	"sparetone/progress"
	"sparetone/progress/store"
	"sparetone/theory"
)

// ProgressPath is where the progress file lies: --progress, else SPARETONE_PROGRESS, else
// sparetone/progress.db in the platform's data folder.
func ProgressPath(cmd *cobra.Command) (string, error) {
	if p, _ := cmd.Flags().GetString("progress"); p != "" {
		return p, nil
	}
	if p := os.Getenv("SPARETONE_PROGRESS"); p != "" {
		return p, nil
	}
	folder, err := dataFolder()
	if err != nil {
		return "", fmt.Errorf("no data folder: %w; name a file with --progress", err)
	}
	return filepath.Join(folder, "sparetone", "progress.db"), nil
}

// OpenProgress opens the progress file. Where it cannot be used it is left as it is, practice goes on in
// memory, and notice says so in one line; it also says if the machine's clock is wrong.
func OpenProgress(cmd *cobra.Command) (f *store.File, notice string, err error) {
	path, err := ProgressPath(cmd)
	if err == nil {
		f, notice, err = OpenJudged(path)
	}
	if err == nil {
		return f, notice, nil
	}
	f, inMemory := store.InMemory(time.Now)
	if inMemory != nil {
		return nil, "", Fault(inMemory)
	}
	return f, "Not kept: " + theory.Clean(WithAdvice(err).Error()), nil
}

// OpenJudged opens a progress file; says is what speaks against the machine's clock, if anything.
func OpenJudged(path string) (f *store.File, says string, err error) {
	if f, err = store.Open(path, time.Now); err != nil {
		return nil, "", err
	}
	c, err := f.Clock()
	if err != nil {
		f.Close()
	}
	return f, cmp.Or(c.Says, c.Asks), err
}

// WithAdvice adds to the error of a damaged file what can be done about it.
func WithAdvice(err error) error {
	if errors.Is(err, progress.ErrDamaged) {
		return fmt.Errorf("%w; sparetone progress restore goes back to the newest good copy and keeps what is newer, sparetone progress rescue saves what can be read", err)
	}
	return err
}

// OpenStrictly opens the progress file, and makes it if it is not there.
func OpenStrictly(cmd *cobra.Command) (*store.File, error) {
	path, err := ProgressPath(cmd)
	if err != nil {
		return nil, Fault(err)
	}
	f, err := store.Open(path, time.Now)
	return f, Fault(WithAdvice(err))
}

// ProgressIsThere refuses a progress file that is not there.
func ProgressIsThere(cmd *cobra.Command) error {
	path, err := ProgressPath(cmd)
	if err != nil {
		return Fault(err)
	}
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		return Fault(fmt.Errorf("there is no progress file at %s yet", path))
	}
	return nil
}

// OpenThere opens a progress file that has to be there.
func OpenThere(cmd *cobra.Command) (*store.File, error) {
	if err := ProgressIsThere(cmd); err != nil {
		return nil, err
	}
	return OpenStrictly(cmd)
}

// ReadThere does something with a progress file that has to be there and is only read.
func ReadThere(cmd *cobra.Command, do func(*store.File) error) error {
	if err := ProgressIsThere(cmd); err != nil {
		return err
	}
	return ReadProgress(cmd, do)
}

// ReadProgress does something with the progress file that only reads it; where there is none yet, it reads as
// empty. What was found broken off is told at the end, and that the clock is wrong first.
func ReadProgress(cmd *cobra.Command, do func(*store.File) error) error {
	path, err := ProgressPath(cmd)
	if err != nil {
		return Fault(err)
	}
	open := store.OpenToRead
	if _, err := os.Stat(path); errors.Is(err, fs.ErrNotExist) {
		open = func(_ string, now func() time.Time) (*store.File, error) { return store.InMemory(now) }
	}
	f, err := open(path, time.Now)
	if err != nil {
		return Fault(WithAdvice(err))
	}
	c, err := f.Clock()
	if c.Says != "" {
		fmt.Fprintln(cmd.ErrOrStderr(), "sparetone:", c.Says)
	}
	if err == nil {
		err = do(f)
	}
	return errors.Join(err, Fault(f.Close()))
}
