package records

import (
	"errors"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/store"
	"sparetone/theory"
)

// WhoseRow says whose practice a progress file holds, as --json prints it.
type WhoseRow struct {
	ID   string `json:"id"`   // random, the same for all copies of a file and for files that go on from its export
	Name string `json:"name"` // "" if none was given
}

func newName() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "name [NAME]",
		Short: "Say whose practice the progress file holds, or give it a name, which goes with every export",
		Long: "Say whose practice the progress file holds: its name, if it has one, and its id, which is random.\n" +
			"Both go with every export, so that whoever takes it in is told whose it is. With NAME, the file is\n" +
			"given that name; '' takes it away.",
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return command.Wrong("%s takes one name; put quotes around one of several words", cmd.CommandPath())
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if len(args) == 0 {
				return command.ReadThere(cmd, func(f *store.File) error { return showWhose(cmd, f) })
			}
			file, err := command.OpenStrictly(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			if err := file.SetName(args[0]); errors.Is(err, store.ErrName) {
				return command.Wrong("%w", err)
			} else if err != nil {
				return command.Fault(err)
			}
			return showWhose(cmd, file)
		},
	}
	command.AddJSON(cmd)
	return cmd
}

func showWhose(cmd *cobra.Command, file *store.File) error {
	w, err := file.Whose()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	switch {
	case o.AsJSON:
		o.Object(WhoseRow(w))
	case w.Name == "":
		o.Printf("No name, with the id %s\n", theory.Clean(w.ID))
	default:
		o.Printf("%s, with the id %s\n", theory.Clean(w.Name), theory.Clean(w.ID))
	}
	return o.Done()
}
