package main

import (
	"slices"

	"sparetone/cmd/sparetone/command"

	"github.com/spf13/cobra"
)

// newHelp is what cobra has for help, but for a name that is no command.
func newHelp() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND]",
		Short: "Say what a command does, as its --help does",
		RunE: func(cmd *cobra.Command, args []string) error {
			asked, rest, err := cmd.Root().Find(args)
			if err != nil {
				return err
			}
			asked.InitDefaultHelpFlag()                                  // or it is not listed
			if asked.ParseFlags(rest) == nil && asked.HasSubCommands() { // else help says which options there are
				if err := command.NoArgs(asked, asked.Flags().Args()); err != nil {
					return err
				}
			}
			return asked.Help()
		},
	}
}

// helpCalled makes a call for --help one of the command help, which knows what is no command: by itself cobra prints the
// help of the nearest thing that is one, and says nothing of the rest.
func helpCalled(args []string) []string {
	asked := slices.IndexFunc(args, func(a string) bool { return a == "--help" || a == "-h" || a == "--" })
	if asked < 0 || args[asked] == "--" {
		return args
	}
	return append([]string{"help", "--"}, slices.Delete(slices.Clone(args), asked, asked+1)...)
}
