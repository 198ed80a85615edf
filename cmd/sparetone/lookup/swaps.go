package lookup

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"sparetone/cmd/sparetone/command"
	"sparetone/drills/bench"
	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/say"
	"sparetone/tui/draw"
)

// SwapRow is a swap as --json prints it.
type SwapRow struct {
	From    string  `json:"from"` // the shape before, as it is typed
	To      string  `json:"to"`   // and after
	String  int     `json:"string"`
	Frets   [2]int  `json:"frets"`  // of the string that moves, before and after
	Symbol  string  `json:"symbol"` // what it becomes
	Adds    string  `json:"adds"`
	GivesUp string  `json:"gives_up"`
	Effort  float64 `json:"effort"`
	Chord   string  `json:"chord"`            // what it was
	Spare   bool    `json:"spare"`            // what is given up still sounds on another string
	Lowest  bool    `json:"lowest"`           // the new note is the lowest that sounds
	InKey   *bool   `json:"in_key,omitempty"` // what is added is of the key, by sound; only if a key was given
	Sounds  string  `json:"sounds,omitempty"` // the added note as the key spells it; only where the chord spells it otherwise
	Stands  string  `json:"stands,omitempty"` // in words how it stands in the key: the raised seventh; only if one was given
	Rubs    string  `json:"rubs,omitempty"`   // the tone, above the root, that the added note lies a semitone above; only if there is one
}

func NewSwaps() *cobra.Command {
	cmd := &cobra.Command{
		Use:     "swaps SYMBOL|FRETS…",
		Short:   "Find what one moved string can add to a chord",
		Long:    "Find every note that a chord can take on in the place of a doubled one by moving one string, and what is suspended by\nmoving its only third. A symbol stands for the first of its shapes that can take on something.",
		Example: "  sparetone swaps 0003\n  sparetone swaps G --key D",
	}
	command.AddJSON(cmd)
	command.AddTuning(cmd)
	command.AddKey(cmd, "mark the notes of a key such as Eb or F#m, and put them first")
	cmd.RunE = func(cmd *cobra.Command, args []string) error {
		t, key, err := command.TuningAndKeyOf(cmd)
		if err != nil {
			return err
		}
		return command.Each(cmd, args, func(o *command.Output, input string) error {
			v, swaps, err := swapsOf(t, input, key)
			if err != nil {
				return err
			}
			if !o.AsJSON {
				o.Printf("%s\n", swapsText(v, swaps, key))
				return nil
			}
			for _, s := range swaps {
				row := SwapRow{
					From: s.From.String(), To: s.To.String(), String: s.String, Frets: [2]int{s.FromFret, s.ToFret}, Symbol: s.Chord.Symbol(),
					Adds: s.Adds.String(), GivesUp: s.GivesUp.String(), Effort: s.Effort, Chord: v.Chord.Symbol(), Spare: s.Spare, Lowest: s.Lowest,
				}
				if key != nil {
					in := s.InKey()
					row.InKey, row.Stands = &in, s.Standing.String()
					if s.InKeyAs != s.Chord.Root.Up(s.Adds) {
						row.Sounds = s.InKeyAs.ASCII()
					}
				}
				if s.Rubbing() {
					row.Rubs = s.Rubs.String()
				}
				if err := o.Object(row); err != nil {
					return err
				}
			}
			return nil
		})
	}
	return cmd
}

// swapsOf finds the swaps of a shape, or of the easiest shape of a chord that has any.
func swapsOf(t *fret.Tuning, input string, key *theory.Key) (v fret.Voicing, swaps []fret.Swap, err error) {
	if IsFrets(input) {
		s, err := fret.ParseShape(input)
		if err != nil {
			return v, nil, err
		}
		v, names, err := fret.Hear(t, s, theory.Context{Key: key})
		if err != nil {
			return v, nil, err
		}
		if len(names) == 0 {
			return v, nil, fmt.Errorf("%s is no chord we know", s)
		}
		swaps := fret.Swaps(t, s, v.Chord, key)
		if len(swaps) == 0 {
			return v, nil, fmt.Errorf("%s, as %s, takes on no note when one string moves", s, v.Chord)
		}
		return v, swaps, nil
	}
	c, how, err := command.ReadChord(input)
	if err != nil {
		return v, nil, err
	}
	for _, f := range fret.Search(t, c, fret.DefaultHand) {
		if swaps := fret.Swaps(t, f.Shape, c, key); len(swaps) > 0 {
			v, err := fret.Voice(t, f.Shape, c)
			return v, swaps, err
		}
	}
	return v, nil, how.After(fmt.Errorf("%s: no shape of it on %s takes on a note when one string moves", c, t.Name))
}

// IsFrets reports whether an input is meant as frets, not as a chord symbol: it starts with a digit, or with the x of a
// muted string.
func IsFrets(input string) bool {
	input = strings.TrimSpace(input)
	return input != "" && strings.ContainsRune("0123456789xX", rune(input[0]))
}

// swapsText draws the shape and lists what may come in the place of a note.
func swapsText(v fret.Voicing, swaps []fret.Swap, key *theory.Key) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s on %s: %s\n\n", v.Shape, v.Tuning.Name, v.Chord)
	b.WriteString(command.Trimmed(draw.Neck{Voicing: v, Named: true}.Render(draw.Theme{})))
	b.WriteByte('\n')
	rows := make([][]string, len(swaps))
	for n, s := range swaps {
		rows[n] = []string{s.To.String(), s.Chord.String(), say.Move(v.Tuning, s).Screen(), say.Trade(s).Screen(), bench.SwapMarks(s, key).Screen()}
	}
	b.WriteString(command.Columns(rows))
	return b.String()
}
