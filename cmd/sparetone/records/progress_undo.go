package records

import (
	"cmp"
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/exchange"
	"sparetone/progress/store"
	"sparetone/theory"
)

// UndoRow is an import that was taken back, or can be, as --json prints it.
type UndoRow struct {
	Import   string    `json:"import"` // its id
	Input    string    `json:"input"`  // what was taken in, as it was named
	At       time.Time `json:"at"`
	Answers  int       `json:"answers"`
	Sessions int       `json:"sessions"`
	Songs    int       `json:"songs"`
	Items    int       `json:"items"` // that nothing else speaks of
	Copy     string    `json:"copy"`  // of the file before it
}

func newUndo() *cobra.Command {
	var list bool
	cmd := &cobra.Command{
		Use:   "undo",
		Short: "Take the latest import back, and leave all that was practised since",
		Long: "Take the latest import back: the answers, sessions and songs that came with it, and no others. What was\n" +
			"practised since stays. Called again, it takes back the import before. The file is copied first.\n" +
			"--list says which imports there are to take back, the latest first, and does nothing.",
		Args: command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			if list {
				return command.ReadProgress(cmd, func(f *store.File) error { return showImports(cmd, f) })
			}
			file, err := command.OpenThere(cmd)
			if err != nil {
				return err
			}
			defer file.Close()
			undone, err := file.UndoImport()
			if err != nil {
				return command.Fault(err)
			}
			o := command.NewOutput(cmd)
			o.Row(undoRowOf(undone), "Taken back: %s.\n", theory.Clean(described(undone)))
			return o.Done()
		},
	}
	cmd.Flags().BoolVar(&list, "list", false, "list the imports that can be taken back, latest first, and do nothing")
	command.AddJSON(cmd)
	return cmd
}

func showImports(cmd *cobra.Command, file *store.File) error {
	all, err := file.Imports()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	for _, i := range all {
		o.Row(undoRowOf(i), "%s\n", theory.Clean(described(i)))
	}
	return o.Done()
}

func undoRowOf(i exchange.Import) UndoRow {
	return UndoRow{i.ID, i.From, i.At, i.Answers, i.Sessions, i.Songs, i.Items, i.Copy}
}

// described says what an import was.
func described(i exchange.Import) string {
	songs := ""
	if i.Songs > 0 {
		songs = ", " + command.Count(i.Songs, "song")
	}
	return fmt.Sprintf("the import of %s on %s, with %s, %s%s and %s that nothing else speaks of",
		cmp.Or(i.From, "what nobody knows any more"), i.At.Local().Format("2 January 2006 at 15:04"), command.Count(i.Answers, "answer"), command.Count(i.Sessions, "session"), songs, command.Count(i.Items, "item"))
}
