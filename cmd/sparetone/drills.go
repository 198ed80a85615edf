package main

import (
	"github.com/spf13/cobra"

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
		Args:  noArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			o := newOutput(cmd)
			for _, d := range catalogue.All() {
				about := d.About()
				if !o.json {
					o.printf("%-15s %s\n", about.ID, about.Title)
				} else if err := o.object(drillRow{about.ID, about.Title, about.Ears}); err != nil {
					return err
				}
			}
			return o.done()
		},
	}
	addJSON(cmd)
	return cmd
}
