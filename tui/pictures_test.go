package tui

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"sparetone/tui/draw"

	"github.com/charmbracelet/colorprofile"
	"github.com/charmbracelet/x/ansi"
)

// readmePictures are the scenes that the README shows, on a dark and on a light background.
var readmePictures = []string{"today-later", "sounding", "wrong-added-ear", "question-build", "bench-swap", "weak", "ending-heard", "course", "played-right"}

// The README's pictures lie in docs/pictures; -update makes them anew from the screens' text and colours.
func TestPictures(t *testing.T) {
	folder := filepath.Join("..", "docs", "pictures")
	if *update {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	for _, name := range readmePictures {
		for _, ground := range []struct {
			name string
			dark bool
		}{{"dark", true}, {"light", false}} {
			a := sized(sceneNamed(t, name), 76, 24)
			a.theme = draw.NewTheme(ground.dark, colorprofile.TrueColor)
			a.draw()
			got := svg(a.shown.lines, ground.dark)
			path := filepath.Join(folder, name+"-"+ground.name+".svg")
			if *update {
				if err := os.WriteFile(path, got, 0o644); err != nil {
					t.Fatal(err)
				}
				continue
			}
			want, err := os.ReadFile(path)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(want, got) {
				t.Errorf("%s is not what the screen looks like now: make it anew with -update", path)
			}
		}
	}
}

// The size of a character in a picture, in pixels.
const (
	charWidth  = 8.4
	charHeight = 18
)

// grounds are the backgrounds of pictures: dark, light.
var grounds = map[bool]string{true: "#16181C", false: "#FFFFFF"}

// svg draws lines of a terminal, with their colours.
func svg(lines []string, dark bool) []byte {
	var b bytes.Buffer
	width := 0
	for _, l := range lines {
		width = max(width, ansi.StringWidth(l))
	}
	w, h := float64(width+4)*charWidth, (len(lines)+2)*charHeight
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %.0f %d" font-family="ui-monospace,Menlo,Consolas,'DejaVu Sans Mono',monospace" font-size="14">`+"\n", w, h)
	fmt.Fprintf(&b, `<rect width="100%%" height="100%%" rx="8" fill="%s"/>`+"\n", grounds[dark])
	for row, l := range lines {
		col := 0
		for _, p := range parts(l) {
			text := strings.TrimRight(p.text, " ")
			if lead := len(text) - len(strings.TrimLeft(text, " ")); text != "" {
				weight := ""
				if p.bold {
					weight = ` font-weight="bold"`
				}
				text = strings.TrimLeft(text, " ")
				fmt.Fprintf(&b, `<text x="%.1f" y="%d" fill="%s"%s xml:space="preserve" textLength="%.1f">`, float64(col+lead+2)*charWidth, (row+2)*charHeight-4, p.colour, weight, float64(ansi.StringWidth(text))*charWidth)
				xml.EscapeText(&b, []byte(text))
				b.WriteString("</text>\n")
			}
			col += ansi.StringWidth(p.text)
		}
	}
	b.WriteString("</svg>\n")
	return b.Bytes()
}

// part is a stretch of a line in one style.
type part struct {
	text   string
	colour string
	bold   bool
}

var styled = regexp.MustCompile("\x1b\\[([0-9;]*)m")

// parts takes a line apart where its style changes.
func parts(line string) []part {
	var out []part
	now := part{colour: "#808080"}
	add := func(text string) {
		if text != "" {
			p := now
			p.text = text
			out = append(out, p)
		}
	}
	for {
		at := styled.FindStringSubmatchIndex(line)
		if at == nil {
			add(line)
			return out
		}
		add(line[:at[0]])
		code := line[at[2]:at[3]]
		line = line[at[1]:]
		if code == "" || code == "0" {
			now = part{colour: "#808080"}
			continue
		}
		n := strings.Split(code, ";")
		for i := 0; i < len(n); i++ {
			switch {
			case n[i] == "1":
				now.bold = true
			case n[i] == "38" && i+4 < len(n):
				var rgb [3]int
				for k := range rgb {
					rgb[k], _ = strconv.Atoi(n[i+2+k])
				}
				now.colour = fmt.Sprintf("#%02X%02X%02X", rgb[0], rgb[1], rgb[2])
				i += 4
			}
		}
	}
}
