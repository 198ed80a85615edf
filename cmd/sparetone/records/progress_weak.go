package records

import (
	"slices"
	"time"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills"
	"sparetone/progress/memory"
	"sparetone/progress/store"
	"sparetone/theory"
)

// WeakRow is a weak item as --json prints it.
type WeakRow struct {
	Item     string     `json:"item"`
	Drill    string     `json:"drill"`
	Target   string     `json:"target"`
	Tuning   string     `json:"tuning"`
	Chance   float64    `json:"chance"` // of being right today, or tomorrow if it was asked today
	Asked    int        `json:"asked"`  // in the last eight weeks
	Right    int        `json:"right"`
	Low      float64    `json:"low"` // the ends of the 95 % interval of their share
	High     float64    `json:"high"`
	Guessing float64    `json:"guessing"` // share that is right by guessing alone
	Due      time.Time  `json:"due"`
	TakenFor []takenRow `json:"taken_for"` // more often than chance explains
}

// takenRow is what an item is taken for.
type takenRow struct {
	Item  string  `json:"item"`
	Times int     `json:"times"`
	Low   float64 `json:"low"` // the ends of the 95 % interval of the share of the answers
	High  float64 `json:"high"`
}

func newWeak() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "weak",
		Short: "List what is missed more than chance explains, and what it is taken for",
		Args:  command.NoArgs,
		RunE: func(cmd *cobra.Command, _ []string) error {
			return command.ReadProgress(cmd, func(f *store.File) error { return showWeak(cmd, f) })
		},
	}
	command.AddJSON(cmd)
	return cmd
}

func showWeak(cmd *cobra.Command, file *store.File) error {
	standings, err := file.Standings()
	if err != nil {
		return command.Fault(err)
	}
	o := command.NewOutput(cmd)
	weak := slices.DeleteFunc(standings, func(s memory.Standing) bool { return !s.Weak })
	if len(weak) == 0 && !o.AsJSON {
		o.Printf("Nothing is weak: no item was missed more than chance explains.\n")
	}
	for _, s := range weak {
		row := WeakRow{Item: s.Item, Chance: s.Chance, Asked: s.Latest.Asked, Right: s.Latest.Right, Low: s.Latest.Low, High: s.Latest.High, Guessing: s.Latest.Guessed / float64(max(1, s.Latest.Asked)), Due: s.Due, TakenFor: []takenRow{}}
		row.Drill, row.Target, row.Tuning = drills.SplitItem(s.Item)
		for _, t := range s.Taken {
			if t.Claimed() {
				row.TakenFor = append(row.TakenFor, takenRow{t.Item, t.Times, t.Low, t.High})
			}
		}
		if o.AsJSON {
			o.Object(row)
			continue
		}
		o.Printf("%s, %s (%s)\n  right %s%s\n", theory.Clean(row.Drill), theory.Clean(row.Target), theory.Clean(row.Tuning), Rate(row.Right, row.Asked), guessing(s))
		for _, t := range row.TakenFor {
			_, target, _ := drills.SplitItem(t.Item)
			o.Printf("  taken for %s %d times: %.0f to %.0f %% of its answers\n", theory.Clean(target), t.Times, 100*t.Low, 100*t.High)
		}
	}
	return o.Done()
}

// guessing says of what is right no more often than by guessing that it is so.
func guessing(s memory.Standing) string {
	if !s.Latest.AsGuessing() {
		return ""
	}
	return ", as guessing would be"
}
