//go:build linux

package main

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var paperPictures = flag.String("paper-pictures", "", "a folder to leave pictures of the pages of papers in")

// The pages of a paper in a browser: at three widths nothing is cut off and nothing is asked for, texts and pictures stand out, the sounds
// play, the keyboard alone reaches all that can be played, ticked and written in, visibly, and each has a name; and they print.
func TestPaperPagesInChromium(t *testing.T) {
	b := chromium(t)
	lesson := filepath.Join(t.TempDir(), `<script>document.hit=1<.toml`)
	text := "chords = [\"C\", \"Am\", \"F\", \"G7\"]\nshapes = [\"0003\", \"2010>0010\"]\n"
	if err := os.WriteFile(lesson, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	dir := paperIn(t, "--lesson", lesson, "--count", "9", "--seed", "3", "--html", "--recording")
	large := paperIn(t, "--lesson", lesson, "--count", "9", "--seed", "3", "--html", "--large", "--left")
	for _, page := range []string{filepath.Join(dir, questionPage), filepath.Join(dir, answerPage), filepath.Join(large, questionPage), filepath.Join(large, answerPage)} {
		for _, width := range []int{360, 820, 1400} {
			b.open(page, width)
			var wide struct{ Page, Window int }
			b.evaluate("({Page: document.documentElement.scrollWidth, Window: innerWidth})", &wide)
			if wide.Page > wide.Window {
				t.Errorf("%s, %d wide: the page is %d wide", page, width, wide.Page)
			}
			// What is in the page itself, or draws the player of the browser, is no request.
			asked := slices.DeleteFunc(slices.Clone(b.asked), func(url string) bool { return strings.HasPrefix(url, "data:") })
			if len(asked) != 1 || !strings.HasPrefix(asked[0], "file://") || len(b.said) > 0 {
				t.Errorf("%s: it asks for %q and says %q", page, asked, b.said)
			}
			var contrast struct {
				Seen int
				Low  []string
			}
			if b.evaluate(contrastsOfPaper, &contrast); len(contrast.Low) > 0 || contrast.Seen < 30 {
				t.Errorf("%s, %d wide: of %d, too little contrast: %q", page, width, contrast.Seen, contrast.Low)
			}
			if *paperPictures != "" {
				name := strings.TrimSuffix(filepath.Base(page), ".html") + map[bool]string{true: "-large"}[strings.HasPrefix(page, large)]
				os.WriteFile(filepath.Join(*paperPictures, name+"-"+string(rune('0'+width/360))+".png"), b.taken("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true}), 0o644)
			}
		}
		var hit bool
		if b.evaluate("!!document.hit || document.querySelectorAll('script').length > 0", &hit); hit {
			t.Errorf("%s: the name of a lesson did something", page)
		}
		pdf := b.taken("Page.printToPDF", map[string]any{"preferCSSPageSize": true})
		if pages := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1)); !bytes.HasPrefix(pdf, []byte("%PDF-")) || pages < 1 || pages > 9 {
			t.Errorf("%s: printed on %d pages, %d bytes", page, pages, len(pdf))
		}
	}

	b.open(filepath.Join(dir, questionPage), 360)
	var sounds struct {
		All, Ready, Named int
		Shortest          float64
	}
	b.await("[...document.querySelectorAll('audio')].every(a => a.readyState > 0 || a.error)")
	b.evaluate(`(all => ({All: all.length, Ready: all.filter(a => !a.error && a.duration > 0.5).length, Named: all.filter(a => a.getAttribute('aria-label')).length,
		Shortest: Math.min(...all.map(a => a.duration))}))([...document.querySelectorAll('audio')])`, &sounds)
	if sounds.All < 2 || sounds.Ready != sounds.All || sounds.Named != sounds.All {
		t.Errorf("of the sounds: %+v", sounds)
	}
	var unnamed []string
	b.evaluate(`[...document.querySelectorAll('input')].filter(i => !i.labels.length || !i.labels[0].textContent.trim()).map(i => i.outerHTML).concat(
		[...document.querySelectorAll('svg')].filter(s => !s.getAttribute('aria-label')).map(s => 'a picture'), [...document.querySelectorAll('fieldset, section')].filter(s => !document.getElementById(s.getAttribute('aria-labelledby'))).map(s => s.tagName))`, &unnamed)
	if len(unnamed) > 0 {
		t.Errorf("without a name: %q", unnamed)
	}
	// A group of choices is one stop; the arrow keys go on in it.
	var stops []string
	b.evaluate(`[...document.querySelectorAll('audio, input')].filter(e => e.type !== 'radio' || e === document.querySelector('input[name="' + e.name + '"]')).map((e, n) => e.id ||= 'stop' + n)`, &stops)
	reached := map[string]bool{}
	for range 12 * len(stops) { // a player of sounds has stops of its own
		b.tab()
		var at struct {
			ID      string
			Outline bool
		}
		b.evaluate("({ID: document.activeElement.id, Outline: getComputedStyle(document.activeElement).outlineStyle !== 'none'})", &at)
		if slices.Contains(stops, at.ID) && !at.Outline {
			t.Errorf("it is not seen that %s has the focus", at.ID)
		}
		reached[at.ID] = true
	}
	for _, id := range stops {
		if !reached[id] {
			t.Errorf("the keyboard does not reach %s", id)
		}
	}
	if len(stops) < 12 {
		t.Errorf("only %d stops for the keyboard", len(stops))
	}
	for _, page := range []string{filepath.Join(dir, questionPage), filepath.Join(large, answerPage)} {
		b.open(page, 703)
		b.do("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
		var cut []string
		b.evaluate("[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).map(e => e.tagName + ' ' + e.textContent.slice(0, 30))", &cut)
		if len(cut) > 0 {
			t.Errorf("%s: cut off in print: %q", page, cut)
		}
		var shown bool
		if b.evaluate("[...document.querySelectorAll('audio')].some(a => getComputedStyle(a).display !== 'none')", &shown); shown {
			t.Errorf("%s: players are printed", page)
		}
		b.do("Emulation.setEmulatedMedia", map[string]any{"media": ""}, nil)
	}
}

// contrastsOfPaper lists contrasts as on the page of a class; what stands in a dot is white on black.
var contrastsOfPaper = strings.Replace(contrasts, "if (c !== 'none'", "if (c !== 'none' && !(e.tagName === 'text' && c === 'rgb(255, 255, 255)')", 1)
