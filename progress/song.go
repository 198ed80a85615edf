package progress

import (
	"fmt"
	"strings"
	"time"
	"unicode/utf8"
)

// Song is a song of the student's own as it was kept at one moment. A song that is changed is kept anew under the same Song, and of
// what was kept the latest holds.
type Song struct {
	ID     string    // of this keeping: no other has it
	Song   string    // of the song: the same however often it is changed
	At     time.Time // when it was kept; of two keepings the later one holds
	Chart  string    // as players write it, lines ended by a line feed; empty if the song was taken away
	Tuning string    // for which its shapes were found, by name
	Rich   int       // 0, plain, to RichestSong
	Shapes string    // shapes that the student chose, as the room that arranges songs writes them
	Sounds string    // what is heard of it, as the room that plays songs calls it
}

// The limits of what is kept of a song.
const (
	LongestChart = 24 << 10 // bytes: with every character escaped it still fits on a line of an export
	RichestSong  = 10
)

// Valid says what in a song cannot be kept.
func (s Song) Valid() error {
	for _, text := range []struct {
		field, is string
		least     int
	}{{"id", s.ID, 1}, {"song", s.Song, 1}, {"tuning", s.Tuning, 0}, {"shapes", s.Shapes, 0}, {"sounds", s.Sounds, 0}} {
		if len(text.is) < text.least || Tidy(text.is) != text.is {
			return fmt.Errorf("%s is a line of %d to %d bytes, without control characters", text.field, text.least, LongestText)
		}
	}
	switch {
	case len(s.Chart) > LongestChart:
		return fmt.Errorf("the chart has %d bytes, and %d are kept", len(s.Chart), LongestChart)
	case !utf8.ValidString(s.Chart) || TidyChart(s.Chart) != s.Chart:
		return fmt.Errorf("the chart is text without control characters but for the ends of its lines and tabs")
	case s.Rich < 0 || s.Rich > RichestSong:
		return fmt.Errorf("rich is %d; it is 0 to %d", s.Rich, RichestSong)
	}
	return nil
}

// TidyChart takes control characters out of a chart, but for tabs and the ends of its lines.
func TidyChart(chart string) string {
	chart = strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(chart)
	return strings.Map(func(r rune) rune {
		if Control(r) && r != '\n' && r != '\t' {
			return -1
		}
		return r
	}, chart)
}
