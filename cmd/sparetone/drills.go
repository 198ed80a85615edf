package main

import (
	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/catalogue"
)

// drillRow is a drill as --json prints it.
type drillRow struct {
	ID    string `json:"id"`
	Title string `json:"title"`
	Ears  bool   `json:"ears"` // it cannot be done without sound
}

func newDrills() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "drills",
		Short: "List the drills",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			o := command.NewOutput(cmd)
			for _, d := range catalogue.All() {
				about := d.About()
				o.Row(drillRow{about.ID, about.Title, about.Ears}, "%-15s %s\n", about.ID, about.Title)
			}
			return o.Done()
		},
	}
	command.AddJSON(cmd)
	return cmd
}
