package command

import (
	"bytes"
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"sparetone/theory/fret"
)

// What moves a cursor or a line is left out of text and escaped in JSON, however the bytes come; what is not UTF-8 is left out.
func TestTextThatIsSafe(t *testing.T) {
	for _, c := range []struct{ is, text, json string }{
		{"plain\n", "plain\n", "plain\n"},
		{"C♯ – é 𝄪\n", "C♯ – é 𝄪\n", "C♯ – é 𝄪\n"},
		{"a\x1b[2Jb", "a[2Jb", `a\u001b[2Jb`},
		{"a\tb\r", "ab", `a\u0009b\u000d`},
		{"a\u202eb\u2066", "ab", `a\u202eb\u2066`},
		{"a\x7fb\u0085c", "abc", `a\u007fb\u0085c`},
		{"a\xffb\xc3", "ab", "ab"},
		{"\ufffd", "\ufffd", "\ufffd"},
		{"\xc3x\xa9y", "xy", "xy"},
	} {
		for asJSON, want := range map[bool]string{false: c.text, true: c.json} {
			for size := 1; size <= len(c.is); size++ { // a character may come in pieces
				var out bytes.Buffer
				w := &SafeText{To: &out, AsJSON: asJSON}
				for at := 0; at < len(c.is); at += size {
					piece := c.is[at:min(len(c.is), at+size)]
					if n, err := io.WriteString(w, piece); n != len(piece) || err != nil {
						t.Errorf("%q: %d, %v", piece, n, err)
					}
				}
				if out.String() != want {
					t.Errorf("%q in pieces of %d, JSON %v: %q, want %q", c.is, size, asJSON, out.String(), want)
				}
			}
		}
	}
	full := &SafeText{To: failing{}}
	for _, text := range []string{"plain", "♯"} {
		if n, err := io.WriteString(full, text); n != 0 || err == nil {
			t.Errorf("%q: %d, %v", text, n, err)
		}
	}
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("full") }

// What is read in pieces is handed on whole, and an error only behind it; a stream that waits for ever ends with its context.
func TestAReaderThatMayWait(t *testing.T) {
	for _, c := range []struct {
		from io.Reader
		want error
	}{
		{strings.NewReader("abcdef"), nil}, {iotest.DataErrReader(strings.NewReader("abcdef")), nil},
		{io.MultiReader(strings.NewReader("abcdef"), iotest.ErrReader(os.ErrClosed)), os.ErrClosed},
	} {
		got, err := io.ReadAll(iotest.OneByteReader(Interruptible(context.Background(), c.from)))
		if string(got) != "abcdef" || !errors.Is(err, c.want) {
			t.Errorf("%q, %v", got, err)
		}
	}
	waits, write := io.Pipe()
	defer write.Close()
	ctx, end := context.WithCancelCause(context.Background())
	r := Interruptible(ctx, waits)
	go func() {
		io.WriteString(write, "ab")
		end(os.ErrDeadlineExceeded)
	}()
	if got, err := io.ReadAll(r); string(got) != "ab" && len(got) > 0 || !errors.Is(err, os.ErrDeadlineExceeded) {
		t.Errorf("%q, %v", got, err)
	}
}

// Each line that is not blank is handed on without its end, one that is too long cut short; the first error ends it.
func TestLinesOfInput(t *testing.T) {
	long := strings.Repeat("x", longestLine+10)
	var got []string
	note := func(line string) error { got = append(got, line); return nil }
	if err := inputLines(strings.NewReader("a\r\n\n  \n b \n"+long+"\nc"), note); err != nil {
		t.Error(err)
	}
	if want := []string{"a", " b ", long[:longestLine], "c"}; strings.Join(got, "|") != strings.Join(want, "|") {
		t.Errorf("%.40q", got)
	}
	if err := inputLines(strings.NewReader("a\nb\n"), func(string) error { return os.ErrClosed }); err != os.ErrClosed {
		t.Error(err)
	}
	if err := inputLines(iotest.ErrReader(os.ErrClosed), note); !errors.Is(err, os.ErrClosed) || StatusOf(err) != Faulty {
		t.Error(err)
	}
}

// Which finger stands where is said in the order of the fingers, a bar with its fret.
func TestHowAShapeIsHeld(t *testing.T) {
	on, err := fret.ParseTuning("ukulele")
	if err != nil {
		t.Fatal(err)
	}
	for want, f := range map[string]fret.Found{
		"only open strings":                                                   {Shape: fret.Shape{0, 0, 0, 0}, Fingers: []int{0, 0, 0, 0}},
		"finger 3 on the A string":                                            {Shape: fret.Shape{0, 0, 0, 3}, Fingers: []int{0, 0, 0, 3}},
		"finger 1 on the E string, 2 on the g string":                         {Shape: fret.Shape{2, 0, 1, 0}, Fingers: []int{2, 0, 1, 0}},
		"finger 1 across the g, C and E strings at fret 2, 4 on the A string": {Shape: fret.Shape{2, 2, 2, 5}, Fingers: []int{1, 1, 1, 4}},
	} {
		if got := Hold(on, f); got != want {
			t.Errorf("%s: %s, want %s", f.Shape, got, want)
		}
	}
	if got := Count(1, "answer") + ", " + Count(2, "answer") + ", " + Count(0, "answer"); got != "1 answer, 2 answers, 0 answers" {
		t.Error(got)
	}
	if got := Columns([][]string{{"a", "bcd", ""}, {"abc", "", "x"}}); got != "a     bcd\nabc         x\n" {
		t.Errorf("%q", got)
	}
}

// Files are written all or none: what is there is replaced where that is forced, a folder never.
func TestFilesAreWrittenTogether(t *testing.T) {
	dir := t.TempDir()
	says := func(text string) func(*os.File) error {
		return func(f *os.File) error { _, err := f.WriteString(text); return err }
	}
	one, other, folder := filepath.Join(dir, "one"), filepath.Join(dir, "other"), filepath.Join(dir, "folder")
	if err := os.Mkdir(folder, 0o700); err != nil {
		t.Fatal(err)
	}
	files := func(text string, paths ...string) (all []NamedFile) {
		for _, p := range paths {
			all = append(all, NamedFile{"--out", p, says(text)})
		}
		return all
	}
	for _, c := range []struct {
		files []NamedFile
		force bool
		says  string
		one   string
	}{
		{files("first", one), false, "", "first"},
		{files("second", other, one), false, "--out: " + one + " is there already: name another file, or replace it with --force", "first"},
		{files("third", one, folder), true, "--out: " + folder + " is a folder; name a file", "first"},
		{files("fourth", one, other), true, "", "fourth"},
	} {
		err := WriteFiles(c.files, c.force)
		if c.says == "" && err != nil || c.says != "" && (err == nil || err.Error() != c.says) {
			t.Errorf("%v, want %q", err, c.says)
		}
		if text, _ := os.ReadFile(one); string(text) != c.one {
			t.Errorf("it holds %q, want %q", text, c.one)
		}
		if _, err := os.Stat(other); (err == nil) != (c.one == "fourth") {
			t.Errorf("the other: %v", err)
		}
	}
	if err := WriteFiles([]NamedFile{{"--out", filepath.Join(dir, "new"), func(*os.File) error { return os.ErrClosed }}}, false); StatusOf(err) != Faulty {
		t.Error(err)
	}
}
