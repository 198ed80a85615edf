package command

import (
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"sparetone/progress/whole"
)

// AddForce adds the option that forced reads.
func AddForce(cmd *cobra.Command, usage string) { cmd.Flags().Bool("force", false, usage) }

// Forced reports whether a command may replace what is there.
func Forced(cmd *cobra.Command) bool {
	force, _ := cmd.Flags().GetBool("force")
	return force
}

// ForAll are the permissions of a file that is made for others to read, less the umask.
const ForAll fs.FileMode = 0o666

// WriteFile writes a file as a whole, in the place of another only if it is forced to; else the error is fs.ErrExist.
func WriteFile(path string, force bool, write func(*os.File) error) error {
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		return &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist}
	}
	if force {
		return whole.Replace(path, ForAll, write)
	}
	return whole.New(path, ForAll, write)
}
