package command

import (
	"github.com/spf13/cobra"

	"sparetone/theory"
	"sparetone/theory/fret"
	"sparetone/theory/read"
)

// AddTuning adds the options that TuningOf reads.
func AddTuning(cmd *cobra.Command) {
	cmd.Flags().String("tuning", "ukulele", "a tuning: a name, or strings such as gCEA")
	cmd.Flags().Int("capo", 0, "the fret of a capo; frets are then counted from it")
}

// TuningOf returns the tuning that a command was called with.
func TuningOf(cmd *cobra.Command) (*fret.Tuning, error) {
	name, _ := cmd.Flags().GetString("tuning")
	t, err := fret.ParseTuning(name)
	if err != nil {
		return nil, Wrong("%w", err)
	}
	capo, _ := cmd.Flags().GetInt("capo")
	if capo == 0 {
		return t, nil
	}
	if t, err = t.Capo(capo); err != nil {
		return nil, Wrong("%w", err)
	}
	return t, nil
}

// AddKey adds the option that keyOf reads.
func AddKey(cmd *cobra.Command, usage string) { cmd.Flags().String("key", "", usage) }

// keyOf returns the key that a command was called with, nil if none.
func keyOf(cmd *cobra.Command) (*theory.Key, error) {
	name, _ := cmd.Flags().GetString("key")
	if name == "" {
		return nil, nil
	}
	k, err := read.Key(name)
	if err != nil {
		return nil, Wrong("--key: %w", err)
	}
	return &k, nil
}

// TuningAndKeyOf returns both, for the commands that have both.
func TuningAndKeyOf(cmd *cobra.Command) (*fret.Tuning, *theory.Key, error) {
	t, err := TuningOf(cmd)
	if err != nil {
		return nil, nil, err
	}
	k, err := keyOf(cmd)
	return t, k, err
}

// ShortNames writes intervals by their short names, an empty list if there are none.
func ShortNames(intervals []theory.Interval) []string {
	out := make([]string, len(intervals))
	for n, i := range intervals {
		out[n] = i.String()
	}
	return out
}

// FretsAsJSON is a shape as --json prints it: a number a string, null where it is muted.
func FretsAsJSON(s fret.Shape) []*int {
	out := make([]*int, len(s))
	for i, f := range s {
		if f != fret.Muted {
			out[i] = &s[i]
		}
	}
	return out
}
