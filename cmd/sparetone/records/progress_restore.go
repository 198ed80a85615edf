package records

import (
	"fmt"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/progress/store"
	"sparetone/theory"
)

// RestoreRow is what came of a return to a copy, as --json prints it.
type RestoreRow struct {
	Copy    string `json:"copy"`
	Answers int    `json:"answers"` // there are now
	Newer   int    `json:"newer"`   // of these, not in the copy
	Lost    int    `json:"lost"`    // could not be read of the file that was there
	AtLeast bool   `json:"at_least"`
	Aside   string `json:"aside"` // where that file lies now; "" if there was none
}

// copyRow is a copy that there is, as --json prints it.
type copyRow struct {
	Path   string `json:"path"`
	ByHand bool   `json:"by_hand"`
	Before string `json:"before"` // what it was made before; "" if it was not
}

func newRestore() *cobra.Command {
	var list bool
	cmd := &cobra.Command{
		Use:   "restore [COPY]",
		Short: "Go back to a copy, and keep what is newer",
		Long: "Go back to a copy: the newest that is sound, or the one that is named, by its name or its path.\n" +
			"Answers that the present file has and the copy has not are kept, as far as they can be read.\n" +
			"The present file is set aside beside the new one, and never deleted. --list says which copies there are.",
		Args: command.AtMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			path, err := command.ProgressPath(cmd)
			if err != nil {
				return command.Fault(err)
			}
			o := command.NewOutput(cmd)
			if list {
				for _, c := range store.CopiesOf(path) {
					o.Row(copyRow{c.Path, c.ByHand, c.Before}, "%s\n", theory.Clean(c.Path))
				}
				return o.Done()
			}
			got, err := store.Restore(path, append(args, "")[0], time.Now)
			if err != nil {
				return command.Fault(err)
			}
			if o.AsJSON {
				o.Object(RestoreRow(got))
			} else {
				o.Printf("Back to %s: %s, of which %d are newer.\n", theory.Clean(got.Copy), command.Count(got.Answers, "answer"), got.Newer)
				if got.Aside != "" {
					o.Printf("What was there lies in %s.\n", theory.Clean(got.Aside))
				}
			}
			return unreadable(o, got.Lost, got.AtLeast)
		},
	}
	cmd.Flags().BoolVar(&list, "list", false, "list the copies there are, latest first, and do nothing")
	command.AddJSON(cmd)
	return cmd
}

// unreadable ends a deed that is done, though some of a damaged file could not be read.
func unreadable(o *command.Output, lost int, atLeast bool) error {
	if err := o.Done(); err != nil {
		return err
	}
	switch {
	case lost > 0 && atLeast:
		return command.Fault(fmt.Errorf("%s or more could not be read", command.Count(lost, "answer")))
	case lost > 0:
		return command.Fault(fmt.Errorf("%s could not be read", command.Count(lost, "answer")))
	case atLeast:
		return command.Fault(fmt.Errorf("it cannot be told whether an answer is missing: what counts them is damaged too"))
	}
	return nil
}

// RescueRow is what was rescued, as --json prints it.
type RescueRow struct {
	Path     string `json:"path"` // of the new file
	Answers  int    `json:"answers"`
	Sessions int    `json:"sessions"`
	Songs    int    `json:"songs"`
	Lost     int    `json:"lost"`     // answers that could not be read
	AtLeast  bool   `json:"at_least"` // there may have been more
}

func newRescue() *cobra.Command {
	var to string
	cmd := &cobra.Command{
		Use:   "rescue [FILE] --out NEW",
		Short: "Save what can still be read of a damaged progress file into a new one",
		Long: "Save every answer that can still be read of a damaged progress file into a new one, and count the\n" +
			"others. An answer that is no longer what was written is not taken. The damaged file stays as it is.\n" +
			"It ends with status 3 if anything could not be read.",
		Args: command.AtMostOne,
		RunE: func(cmd *cobra.Command, args []string) error {
			if to == "" {
				return command.Wrong("%s needs --out NEW, a file that is not there yet", cmd.CommandPath())
			}
			path, err := command.ProgressPath(cmd)
			if len(args) > 0 {
				path, err = args[0], nil
			}
			if err != nil {
				return command.Fault(err)
			}
			got, err := store.Rescue(path, to, time.Now)
			if err != nil {
				return command.Fault(err)
			}
			o := command.NewOutput(cmd)
			if o.AsJSON {
				o.Object(RescueRow{to, got.Answers, got.Sessions, got.Songs, got.Lost, got.AtLeast})
			} else {
				o.Printf("%s in %s saved in %s.\n", command.Count(got.Answers, "answer"), command.Count(got.Sessions, "session"), theory.Clean(to))
				if got.Songs > 0 {
					o.Printf("%s of your own saved as well.\n", command.Count(got.Songs, "song"))
				}
			}
			return unreadable(o, got.Lost, got.AtLeast)
		},
	}
	cmd.Flags().StringVar(&to, "out", "", "the new file")
	command.AddJSON(cmd)
	return cmd
}
