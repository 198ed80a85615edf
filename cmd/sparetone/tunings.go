package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"sparetone/theory/fret"
)

// tuningRow is a tuning as --json prints it.
type tuningRow struct {
	Name    string   `json:"name"`
	Title   string   `json:"title"`
	Strings []string `json:"strings"` // open strings in playing order, such as G4
	MIDI    []int    `json:"midi"`
	Frets   int      `json:"frets"`
}

func newTunings() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "tunings",
		Short: "List the tunings that have a name",
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			o := newOutput(cmd)
			for _, t := range fret.Tunings() {
				row := tuningRow{Name: t.Name, Title: t.Title, Frets: t.Frets}
				for _, p := range t.Strings {
					row.Strings = append(row.Strings, fmt.Sprintf("%s%d", p.Note.ASCII(), p.Octave))
					row.MIDI = append(row.MIDI, p.MIDI())
				}
				if !o.json {
					o.printf("%-18s %s\n", t.Name, t.Title)
				} else if err := o.object(row); err != nil {
					return err
				}
			}
			return o.done()
		},
	}
	addJSON(cmd)
	return cmd
}
