package main

import (
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"sparetone/progress/whole"
)

// addForce adds the option that forced reads.
func addForce(cmd *cobra.Command, usage string) { cmd.Flags().Bool("force", false, usage) }

// forced reports whether a command may replace what is there.
func forced(cmd *cobra.Command) bool {
	force, _ := cmd.Flags().GetBool("force")
	return force
}

// forAll are the permissions of a file that is made for others to read, less the umask.
const forAll fs.FileMode = 0o666

// writeFile writes a file as a whole, in the place of another only if it is forced to; else the error is fs.ErrExist.
func writeFile(path string, force bool, write func(*os.File) error) error {
	if about, err := os.Stat(path); err == nil && about.IsDir() {
		return &fs.PathError{Op: "write", Path: path, Err: fs.ErrExist}
	}
	if force {
		return whole.Replace(path, forAll, write)
	}
	return whole.New(path, forAll, write)
}
