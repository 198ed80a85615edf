package lines

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"io"
	"strings"
	"time"

	"github.com/charmbracelet/x/ansi"

	"sparetone/theory"
	"sparetone/theory/say"
	"sparetone/tui/page"
)

// reader is somebody who practises in lines.
type reader struct {
	*page.Walk
	ctx   context.Context
	out   io.Writer
	lines chan string
	place page.Place

	onward <-chan time.Time // receives when the place goes on by itself; nil if it waits

	listed  int      // lines of the place's choice that were said
	trouble say.Text // with sound or file, as it was said last
	waited  bool     // the place was not said yet: it waits for sound
	leaving bool     // the program is to end after the sum of the practice
	gone    bool     // nothing more can be typed
	failed  error    // why out could not be written to; nil if it could. Nobody is then asked anything more
}

// longestTyped is how much of a line is read, in bytes.
const longestTyped = 4096

// read hands on the lines that are typed, and closes the channel at their end.
func (t *reader) read(in io.Reader) {
	defer close(t.lines)
	r := bufio.NewReaderSize(in, longestTyped)
	for {
		line, err := r.ReadSlice('\n')
		text := strings.TrimRight(strings.ToValidUTF8(string(line), ""), " \t\r\n")
		for errors.Is(err, bufio.ErrBufferFull) {
			_, err = r.ReadSlice('\n')
		}
		if err != nil {
			return // a line that was not ended may not have been meant
		}
		select {
		case t.lines <- text:
		case <-t.ctx.Done():
			return
		}
	}
}

// say prints lines of our own words.
func (t *reader) say(lines ...string) {
	for _, l := range lines {
		if _, err := fmt.Fprintln(t.out, theory.Clean(ansi.Strip(l))); err != nil && t.failed == nil {
			t.failed = err
		}
	}
}
