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

	"sparetone/cmd/sparetone/command"
)

var classPictures = flag.String("class-pictures", "", "a folder to leave pictures of the class page in")

// contrasts lists, for whatever has a text or is a picture, the contrast against the white page by WCAG 2.2, and what is below its bound.
const contrasts = `(() => {
	const channel = c => (c /= 255) <= 0.04045 ? c / 12.92 : ((c + 0.055) / 1.055) ** 2.4;
	const ratio = css => { const [r, g, b] = css.match(/\d+(\.\d+)?/g).map(Number); return 1.05 / (0.2126 * channel(r) + 0.7152 * channel(g) + 0.0722 * channel(b) + 0.05); };
	const low = [];
	let seen = 0;
	for (const e of document.querySelectorAll('body *')) {
		const style = getComputedStyle(e);
		const svg = e.closest('svg');
		if (style.backgroundColor !== 'rgba(0, 0, 0, 0)') low.push(e.tagName + ' has a ground of its own');
		if (svg && e !== svg) {
			for (const c of [style.fill, style.stroke]) if (c !== 'none' && !(e.tagName === 'line' && c === style.fill)) { seen++; if (ratio(c) < 3) low.push(e.tagName + ' ' + c); }
		} else if ([...e.childNodes].some(n => n.nodeType === 3 && n.data.trim())) { seen++; if (ratio(style.color) < 4.5) low.push(e.tagName + ' ' + style.color + ' ' + e.textContent.slice(0, 40)); }
	}
	return {seen, low};
})()`

// The class page in a browser: at three widths nothing is cut off sideways and nothing is asked for; the keyboard alone reaches all that can be
// followed or moved, visibly; texts and pictures stand out; it prints; and what is in a name stays a name.
func TestClassPageInChromium(t *testing.T) {
	b := chromium(t)
	folder, page := monday(t), filepath.Join(t.TempDir(), "monday.html")
	hostile := []string{`<img src="http://example.com/x" onerror="document.hit=1">`, `<script>document.hit=1</script>`, `</bdi></th></table><h1 id=hit>`, `"'&amp;<b>`, `אבג דה`, `a&#x202e;b`}
	for n, name := range hostile {
		handIn(t, folder, string(rune('p'+n))+".jsonl", name, 40+n, 60, n)
	}
	roster := filepath.Join(t.TempDir(), "names.txt")
	if err := os.WriteFile(roster, []byte("Ann\nBo\nCy\nZed \u202egpj.exe\u2066\n"+strings.Join(hostile, "\n")+"\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, errs, ended := called(t, "", on(folder, "--html", page, "--roster", roster, "--since", "2026-03-09")...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	for _, width := range []int{360, 820, 1400} {
		b.open(page, width)
		var wide struct{ Page, Window int }
		b.evaluate("({Page: document.documentElement.scrollWidth, Window: innerWidth})", &wide)
		if wide.Page > wide.Window {
			t.Errorf("%d wide: the page is %d wide in a window of %d", width, wide.Page, wide.Window)
		}
		if want := "file://" + page; len(b.asked) != 1 || b.asked[0] != want || len(b.said) > 0 {
			t.Errorf("%d wide: it asks for %q and says %q", width, b.asked, b.said)
		}
		var contrast struct {
			Seen int
			Low  []string
		}
		if b.evaluate(contrasts, &contrast); len(contrast.Low) > 0 || contrast.Seen < 100 {
			t.Errorf("%d wide: of %d, too little contrast: %q", width, contrast.Seen, contrast.Low)
		}
		if *classPictures != "" {
			os.WriteFile(filepath.Join(*classPictures, "class-"+string(rune('0'+width/360))+".png"), b.taken("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true}), 0o644)
		}
	}
	b.open(page, 360)
	var stops []string
	b.evaluate("[...document.querySelectorAll('a[href], [tabindex], summary')].map((e, n) => e.id ||= 'stop' + n)", &stops)
	var reached []string
	for range len(stops) + 3 {
		b.tab()
		var at struct {
			ID      string
			Outline bool
		}
		b.evaluate("({ID: document.activeElement.id, Outline: getComputedStyle(document.activeElement).outlineStyle !== 'none'})", &at)
		if slices.Contains(stops, at.ID) && !at.Outline {
			t.Errorf("it is not seen that %s has the focus", at.ID)
		}
		reached = append(reached, at.ID)
	}
	for _, id := range stops {
		if !slices.Contains(reached, id) {
			t.Errorf("the keyboard does not reach %s", id)
		}
	}
	if len(stops) < 8 {
		t.Errorf("only %d stops for the keyboard", len(stops))
	}
	var is struct {
		Hit      bool
		Elements int
		Text     string
		Headers  int
		Names    int
	}
	b.evaluate(`({Hit: !!document.hit || !!document.getElementById('hit'), Elements: document.querySelectorAll('img, script, iframe, object, embed, b > b, form').length, Text: document.body.textContent,
		Headers: document.querySelectorAll('tbody th[scope=row]').length, Names: document.querySelectorAll('tbody th bdi').length})`, &is)
	if is.Hit || is.Elements > 0 {
		t.Errorf("a name did something: %+v", is)
	}
	for _, name := range hostile {
		if !strings.Contains(is.Text, name) {
			t.Errorf("%q does not stand there", name)
		}
	}
	if moves := regexp.MustCompile("[\u200e\u200f\u202a-\u202e\u2066-\u2069]").FindString(is.Text); moves != "" || !strings.Contains(is.Text, "Zed gpj.exe") {
		t.Errorf("%q stands there", moves)
	}
	if is.Names != len(hostile)+4 || is.Headers < is.Names {
		t.Errorf("%d rows begin with a name", is.Names)
	}
	pdf := b.taken("Page.printToPDF", map[string]any{"preferCSSPageSize": true})
	pages := len(regexp.MustCompile(`/Type\s*/Page\b[^s]`).FindAll(pdf, -1))
	if !bytes.HasPrefix(pdf, []byte("%PDF-")) || pages < 1 || pages > 4 {
		t.Errorf("printed on %d pages, %d bytes", pages, len(pdf))
	}
	b.do("Emulation.setEmulatedMedia", map[string]any{"media": "print"}, nil)
	b.do("Emulation.setDeviceMetricsOverride", map[string]any{"width": 703, "height": 1000, "deviceScaleFactor": 1, "mobile": false}, nil) // A4 within its margins
	var cut []string
	b.evaluate("[...document.querySelectorAll('main *')].filter(e => e.getBoundingClientRect().right > innerWidth + 1).map(e => e.tagName + ' ' + e.textContent.slice(0, 30))", &cut)
	if len(cut) > 0 {
		t.Errorf("cut off in print: %q", cut)
	}
	if *classPictures != "" {
		os.WriteFile(filepath.Join(*classPictures, "class.pdf"), pdf, 0o644)
	}
}
