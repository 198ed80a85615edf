package main

import (
	"io"
	"strings"

	"sparetone/cmd/sparetone/command"

	"github.com/spf13/cobra"
)

// shells are those that commands can be completed in, in the order in which they are listed.
var shells = []string{"bash", "zsh", "fish", "powershell"}

// completions write the script for a shell.
var completions = map[string]func(root *cobra.Command, w io.Writer) error{
	"bash":       func(root *cobra.Command, w io.Writer) error { return root.GenBashCompletionV2(w, true) },
	"zsh":        (*cobra.Command).GenZshCompletion,
	"fish":       func(root *cobra.Command, w io.Writer) error { return root.GenFishCompletion(w, true) },
	"powershell": (*cobra.Command).GenPowerShellCompletionWithDesc,
}

func newCompletion() *cobra.Command {
	return &cobra.Command{
		Use:       "completion SHELL",
		Short:     "Write a script that lets a shell complete commands and options",
		Long:      "Write a script that lets a shell complete commands and options: " + strings.Join(shells, ", ") + ".\nThe shell has to read it, as in the example, whenever it starts.",
		Example:   "  source <(sparetone completion bash)\n  sparetone completion fish | source",
		ValidArgs: shells,
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) != 1 {
				return command.Wrong("%s takes one shell: %s", cmd.CommandPath(), strings.Join(shells, ", "))
			}
			script, ok := completions[args[0]]
			if !ok {
				return command.Wrong("%s: %q is no shell that is known; known are %s", cmd.CommandPath(), args[0], strings.Join(shells, ", "))
			}
			return command.Fault(script(cmd.Root(), command.Stdout(cmd)))
		},
	}
}
