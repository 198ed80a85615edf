package command

import (
	"bytes"
	"context"
	"errors"
	"strings"
	"testing"

	"github.com/spf13/cobra"
)

// outputTo is the output of a command that was called with or without --json.
func outputTo(w *bytes.Buffer, asJSON bool) *Output {
	cmd := &cobra.Command{}
	cmd.SetContext(context.Background())
	cmd.SetOut(w)
	AddJSON(cmd)
	if asJSON {
		_ = cmd.Flags().Set("json", "true")
	}
	return NewOutput(cmd)
}

func TestARowIsAnObjectOrText(t *testing.T) {
	for asJSON, want := range map[bool]string{true: "{\"name\":\"C\"}\n", false: "C is a chord\n"} {
		var out bytes.Buffer
		o := outputTo(&out, asJSON)
		row := struct {
			Name string `json:"name"`
		}{"C"}
		if err := errors.Join(o.Row(row, "%s is a chord\n", row.Name), o.Done()); err != nil || out.String() != want {
			t.Errorf("JSON %v: %q, %v, want %q", asJSON, out.String(), err, want)
		}
	}
}

// What could not be written is told at the end as well, though other rows were written after it.
func TestDoneTellsWhatFailedBefore(t *testing.T) {
	var out bytes.Buffer
	o := outputTo(&out, true)
	first := o.Object(make(chan int)) // JSON has none
	again := o.Object("a row")
	if done := o.Done(); first == nil || again != first || done != first || StatusOf(done) != Faulty || !strings.Contains(done.Error(), "chan int") {
		t.Errorf("%v, then %v, at the end %v", first, again, done)
	}
}
