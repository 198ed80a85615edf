package command

import (
	"github.com/spf13/cobra"

	"sparetone/theory"
)

// NoArgs refuses arguments.
func NoArgs(cmd *cobra.Command, args []string) error {
	if len(args) > 0 {
		return Wrong("%q is no command of %s; see %s --help", theory.Clean(args[0]), cmd.CommandPath(), cmd.CommandPath())
	}
	return nil
}

// AtMostOne refuses a second argument.
func AtMostOne(cmd *cobra.Command, args []string) error {
	if len(args) > 1 {
		return Wrong("%s takes one file", cmd.CommandPath())
	}
	return nil
}
