package lookup

import (
	"fmt"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/tui/draw"
)

// FoundRow is a shape of a chord as --json prints it.
type FoundRow struct {
	Symbol  string   `json:"symbol"`
	Shape   string   `json:"shape"`   // as it is typed
	Frets   []*int   `json:"frets"`   // null for a muted string
	Fingers []int    `json:"fingers"` // 1 the index to 4 the little finger, 0 none
	Barre   int      `json:"barre"`   // fret of the index finger's barre, 0 if none
	Effort  float64  `json:"effort"`
	Missing []string `json:"missing"`
	Taught  bool     `json:"taught"`           // players are taught this shape; these come first
	Remark  string   `json:"remark,omitempty"` // as ChordRow has it
}

// shapesDrawn is how many shapes are drawn if no limit is set.
const shapesDrawn = 6

func NewShapes() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "shapes SYMBOL…",
		Short: "Find the shapes of a chord: first what players are taught, then what is easiest",
		Long: "Find the shapes of a chord: first what players are taught, then what is easiest.\n" +
			"Finger 1 is the index finger and 4 the little finger. Effort is what a shape asks of the hand:\n" +
			"0 for open strings alone, more for every finger, stretch and barre.",
		Example: "  sparetone shapes Cadd9\n  sparetone shapes G/B --tuning guitar --limit 3",
	}
	command.AddJSON(cmd)
	command.AddTuning(cmd)
	var limit, maxFret int
	cmd.Flags().IntVar(&maxFret, "max-fret", fret.DefaultHand.MaxFret, "the highest fret to look at")
	cmd.Flags().IntVar(&limit, "limit", 0, fmt.Sprintf("at most so many for a chord (default all, %d when they are drawn)", shapesDrawn))
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		t, err := command.TuningOf(cmd)
		if err != nil {
			return err
		}
		if !cmd.Flags().Changed("max-fret") {
			maxFret = min(maxFret, t.Frets) // a capo leaves fewer
		}
		if maxFret < 0 || maxFret > t.Frets {
			return command.Wrong("--max-fret: %d; this neck ends at fret %d", maxFret, t.Frets)
		}
		if limit < 0 {
			return command.Wrong("--limit: %d; it must be 0, for all, or more", limit)
		}
		hand := fret.DefaultHand
		hand.MaxFret = maxFret
		return command.Each(cmd, args, func(o *command.Output, input string) error {
			c, how, err := command.ReadChord(input)
			if err != nil {
				return err
			}
			found := fret.Search(t, c, hand)
			if len(found) == 0 {
				return how.After(fmt.Errorf("%s has no shape on %s that a hand can hold up to fret %d", c, t.Name, maxFret))
			}
			most := limit
			if most == 0 && !o.AsJSON {
				most = shapesDrawn
			}
			o.Remark(how)
			if most > 0 {
				found = found[:min(most, len(found))]
			}
			for _, f := range found {
				if !o.AsJSON {
					o.Printf("%s\n", foundText(t, c, f))
				} else if err := o.Object(FoundRow{
					c.Symbol(), f.Shape.String(), command.FretsAsJSON(f.Shape), f.Fingers, f.Barre, f.Effort, command.ShortNames(f.Missing), f.Taught, how.String(),
				}); err != nil {
					return err
				}
			}
			return nil
		})
	}
	return cmd
}

// foundText draws a shape and says how it is held.
func foundText(t *fret.Tuning, c theory.Chord, f fret.Found) string {
	title := fmt.Sprintf("%s: %s%s", c, f.Shape, command.Lacking(f.Missing))
	drawing := ""
	if v, err := fret.Voice(t, f.Shape, c); err == nil {
		drawing = draw.Neck{Voicing: v, Named: true}.Render(draw.Theme{})
	}
	return fmt.Sprintf("%s\n%s; effort %.1f\n\n%s", title, command.Hold(t, f), f.Effort, command.Trimmed(drawing))
}
