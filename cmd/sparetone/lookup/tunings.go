package lookup

import (
	"fmt"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/theory/fret"
)

// TuningRow is a tuning as --json prints it.
type TuningRow struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Strings []string `json:"strings"` // open strings in playing order, such as G4
	MIDI    []int    `json:"midi"`
	Frets   int      `json:"frets"`
}

func NewTunings() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tunings",
		Short: "List the tunings that have a name",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			o := command.NewOutput(cmd)
			for _, t := range fret.Tunings() {
				row := TuningRow{Name: t.Name, Title: t.Title, Frets: t.Frets}
				for _, p := range t.Strings {
					row.Strings = append(row.Strings, fmt.Sprintf("%s%d", p.Note.ASCII(), p.Octave))
					row.MIDI = append(row.MIDI, p.MIDI())
				}
				o.Row(row, "%-18s %s\n", t.Name, t.Title)
			}
			return o.Done()
		},
	}
	command.AddJSON(cmd)
	return cmd
}
