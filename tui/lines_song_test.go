package tui

import (
	"context"
	"path/filepath"
	"strings"
	"testing"

	"sparetone/tui/lines"
)

// A song is written, said bar by bar and chord by chord, changed, printed, kept and practised in lines alone; spaces and empty lines of what is
// written stay, so that chords stand over their words.
func TestASongInLines(t *testing.T) {
	p, _ := practiceOf(t, true)
	sheet := filepath.Join(t.TempDir(), "sheet.html")
	script := []string{
		"songs", "new", "title: Evergreen", "key: C", "", "[Verse]", "C        Am", "Ever and green", "", "F  G7", "Help me", "line 5", "C        Em", "done",
		"next", "colour", "colour", "shape", "found", "richer", "switch", "turns", "click", "count", "faster", "slower", "4", "9", "before", "bars",
		"sheet " + sheet, "sheet x.doc", "chart", "drop 9", "stop", "stop", "1", "stop", "open nowhere", "new", "| C | Amm |", "done", "stop",
		"remove 1", "remove 7", "remove 1", "leave",
	}
	out := &heardLines{}
	if err := lines.Run(context.Background(), p, strings.NewReader(strings.Join(script, "\n")+"\n"), out); inMemory(err) != nil {
		t.Fatal(err)
	}
	says(t, out.String(),
		"No song is kept yet.", "Type new to write a song", "Type the song, a line at a time, and then done.",
		"Line 5 is written anew: C        Am", "Evergreen. In C major.", "Verse. Bar 1: C6.", "Bar 2: E minor seventh.", "Bar 4: G7.", "At bar 1: C6.",
		"C on the A string becomes A: 6 for the doubled root", "At bar 2: E minor", "is not counted in", "There are bars 1 to 4.", "Written to ", "A sheet, if the file's name ends with .html", "Line 9 is out.", "1: Evergreen",
		"no such file", "ine 1, column 7", "Once more takes “Evergreen” away.", "There is one song: 1.", "“Evergreen” is taken away.",
	)
	if songs, err := p.KeptSongs(); err != nil || len(songs) != 0 {
		t.Errorf("%d songs, %v", len(songs), err)
	}
}
