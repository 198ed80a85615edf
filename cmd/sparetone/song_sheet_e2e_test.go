//go:build linux

package main

import (
	"bytes"
	"encoding/xml"
	"flag"
	"image"
	"image/png"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"sparetone/cmd/sparetone/command"
)

var sheetPictures = flag.String("sheet-pictures", "", "a folder to leave pictures of sheets in")

// sheetSong has what is hard to draw: signs, several alphabets, long words, many chords, a picking order, a strum and a capo.
const sheetSong = `title: Wet socks – Мокрые носки, ♭♯°ø
key: Eb
tempo: 96
capo: 2
pick: 4 2 (31) 4h
strum: D . D U . U D U

[Verse]
[Eb]Over and over the [Abmaj7]river, [Bb7sus4]Дождь идёт [Fm7b5]ночью
[Cm]βροχή και [F#dim7]ήλιος, [Gaug]čerešňa [Db6/9]žlutá

[Chorus]
|: Eb | Ab / Bb7 | Cm7 | Abm6 :| x3
[Eb]averylongwordwithoutanyspacethatgoesonandonuntilthelineisover
`

// sheetOf writes sheets of sheetSong, and returns the path of one with an ending.
func sheetOf(t *testing.T, ending string, more ...string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "sheet"+ending)
	if _, errs, ended := called(t, sheetSong, append([]string{"song", "-", "--sheet", path}, more...)...); ended != command.Done {
		t.Fatal(ended, errs)
	}
	return path
}

// sheetLooks are how sheets may look.
var sheetLooks = map[string][]string{
	"plain": nil, "large": {"--large", "--paper", "letter"}, "left": {"--left", "--tuning", "guitar"}, "large-left": {"--large", "--left", "--tuning", "mandolin"},
}

// A sheet as HTML in a browser: on a phone, on A4 and on a wide screen nothing is cut off and nothing asked for; all stands out, each picture is said
// in words, and it prints.
func TestSheetInChromium(t *testing.T) {
	b := chromium(t)
	for look, args := range sheetLooks {
		path := sheetOf(t, ".html", args...)
		for _, width := range []int{360, 794, 1400} { // 794 is A4 at 96 dots an inch
			b.open(path, width)
			var page struct {
				Page, Window int
				Cut          []string
			}
			b.evaluate(`({Page: document.documentElement.scrollWidth, Window: innerWidth,
				Cut: [...document.querySelectorAll('main *')].filter(e => { const r = e.getBoundingClientRect(); return r.right > innerWidth + 1 || r.left < -1; }).map(e => e.tagName + ' ' + e.textContent.slice(0, 30))})`, &page)
			if page.Page > page.Window || len(page.Cut) > 0 {
				t.Errorf("%s, %d wide: the page is %d wide, cut off are %q", look, width, page.Page, page.Cut)
			}
			if len(b.asked) != 1 || len(b.said) > 0 {
				t.Errorf("%s: it asks for %q", look, b.asked)
			}
			var contrast struct {
				Seen int
				Low  []string
			}
			if b.evaluate(contrastsOfPaper, &contrast); len(contrast.Low) > 0 || contrast.Seen < 100 {
				t.Errorf("%s, %d wide: of %d, too little contrast: %q", look, width, contrast.Seen, contrast.Low)
			}
			if *sheetPictures != "" {
				os.WriteFile(filepath.Join(*sheetPictures, look+"-"+string(rune('0'+width/360))+".png"), b.taken("Page.captureScreenshot", map[string]any{"captureBeyondViewport": true}), 0o644)
			}
		}
		var unsaid int
		if b.evaluate("[...document.querySelectorAll('svg')].filter(s => s.getAttribute('role') !== 'img' || !s.getAttribute('aria-label')).length", &unsaid); unsaid > 0 {
			t.Errorf("%s: %d pictures are not said in words", look, unsaid)
		}
		// What stands in a picture lies in it.
		var outside []string
		b.evaluate(`[...document.querySelectorAll('svg')].flatMap(s => { const v = s.viewBox.baseVal; return [...s.children].filter(e => e.getBBox && e.tagName !== 'title' && e.tagName !== 'desc').filter(e => {
			const r = e.getBBox(); return r.x < v.x - 0.5 || r.y < v.y - 0.5 || r.x + r.width > v.x + v.width + 0.5 || r.y + r.height > v.y + v.height + 0.5; }).map(e => e.tagName + ' ' + e.textContent); })`, &outside)
		if len(outside) > 0 {
			t.Errorf("%s: outside their pictures lie %q", look, outside)
		}
		printed := filepath.Join(t.TempDir(), "printed.pdf")
		if err := os.WriteFile(printed, b.taken("Page.printToPDF", map[string]any{"preferCSSPageSize": true, "paperWidth": 8.27, "paperHeight": 11.69}), 0o600); err != nil {
			t.Fatal(err)
		}
		var seen string
		b.evaluate("document.querySelector('main').innerText", &seen)
		all := textOfPDF(t, printed)
		for word := range strings.FieldsSeq(seen) {
			if !strings.Contains(all, word) {
				t.Errorf("%s: %q is not in print", look, word)
			}
		}
	}
}

// textOfPDF is the text of a PDF without its spaces.
func textOfPDF(t *testing.T, path string) string {
	t.Helper()
	need(t, "pdftotext")
	out, err := exec.Command("pdftotext", "-raw", path, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.Join(strings.Fields(string(out)), "")
}

// A sheet as SVG by two renderers that share nothing, rsvg-convert and Chromium: what one draws somewhere the other does too, nothing touches
// the edge of the paper, and each text comes out of both with every character.
func TestSheetByTwoRenderers(t *testing.T) {
	need(t, "rsvg-convert", "pdftotext")
	b := chromium(t)
	for look, args := range sheetLooks {
		path := sheetOf(t, ".svg", args...)
		drawn := map[string]image.Image{"rsvg-convert": decoded(t, rsvg(t, path, "png"))}
		size := drawn["rsvg-convert"].Bounds()
		b.do("Emulation.setDeviceMetricsOverride", map[string]any{"width": size.Dx(), "height": size.Dy(), "deviceScaleFactor": 1, "mobile": false}, nil)
		b.do("Page.navigate", map[string]any{"url": "file://" + path}, nil)
		b.await("document.readyState === 'complete' && document.documentElement.tagName === 'svg'")
		drawn["Chromium"] = decoded(t, b.taken("Page.captureScreenshot", nil))
		for name, other := range map[string]string{"rsvg-convert": "Chromium", "Chromium": "rsvg-convert"} {
			if missing := inkWithout(drawn[name], drawn[other]); len(missing) > 0 {
				t.Errorf("%s: %s has ink and %s has none at %v", look, name, other, missing[:min(5, len(missing))])
			}
			if edge := inkAtEdge(drawn[name]); edge {
				t.Errorf("%s: in %s something touches the edge", look, name)
			}
			if *sheetPictures != "" {
				var out bytes.Buffer
				png.Encode(&out, drawn[name])
				os.WriteFile(filepath.Join(*sheetPictures, look+"-svg-"+name+".png"), out.Bytes(), 0o644)
			}
		}
		pdf := filepath.Join(t.TempDir(), "s.pdf")
		for name, data := range map[string][]byte{
			"rsvg-convert": rsvg(t, path, "pdf"),
			"Chromium":     b.taken("Page.printToPDF", map[string]any{"paperWidth": float64(size.Dx()) / 96, "paperHeight": float64(size.Dy()) / 96, "marginTop": 0, "marginBottom": 0, "marginLeft": 0, "marginRight": 0, "printBackground": true}),
		} {
			if err := os.WriteFile(pdf, data, 0o600); err != nil {
				t.Fatal(err)
			}
			all := textOfPDF(t, pdf)
			for _, text := range textsOfSVG(t, path) {
				if piece := strings.Join(strings.Fields(text), ""); !strings.Contains(all, piece) {
					t.Errorf("%s: %q does not come out of %s", look, text, name)
				}
			}
		}
	}
}

// rsvg draws an SVG in another format.
func rsvg(t *testing.T, path, format string) []byte {
	t.Helper()
	out, err := exec.Command("rsvg-convert", "-f", format, path).Output()
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func decoded(t *testing.T, data []byte) image.Image {
	t.Helper()
	picture, err := png.Decode(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	return picture
}

// inkCell is how wide and high the cells are in which ink is compared, in pixels.
const inkCell = 12

// dark reports whether there is ink at a pixel. The last row is half off the paper, and so seen through.
func dark(p image.Image, x, y int) bool {
	r, g, b, a := p.At(x, y).RGBA()
	return a == 0xFFFF && r+g+b < 3*0x8000
}

// inked returns the cells of a picture with ink, and how much.
func inked(p image.Image) map[image.Point]int {
	cells := map[image.Point]int{}
	for y := range p.Bounds().Dy() {
		for x := range p.Bounds().Dx() {
			if dark(p, x, y) {
				cells[image.Pt(x/inkCell, y/inkCell)]++
			}
		}
	}
	return cells
}

// inkWithout returns the cells in which one picture has ink and another has none, there or beside it.
func inkWithout(one, other image.Image) (cells []image.Point) {
	has := inked(other)
	for cell, ink := range inked(one) {
		near := 0
		for dx := -1; dx <= 1; dx++ {
			for dy := -1; dy <= 1; dy++ {
				near += has[cell.Add(image.Pt(dx, dy))]
			}
		}
		if ink > 4 && near == 0 {
			cells = append(cells, cell)
		}
	}
	return cells
}

// inkAtEdge reports whether there is ink within a few pixels of the edge.
func inkAtEdge(p image.Image) bool {
	const margin = 12
	b := p.Bounds()
	for y := range b.Dy() {
		for x := range b.Dx() {
			if (x < margin || y < margin || x >= b.Dx()-margin || y >= b.Dy()-margin) && dark(p, x, y) {
				return true
			}
		}
	}
	return false
}

// textsOfSVG are the texts of an SVG, as they stand in its elements.
func textsOfSVG(t *testing.T, path string) (texts []string) {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	for _, m := range regexp.MustCompile(`(?s)<text [^>]*>(.*?)</text>`).FindAllStringSubmatch(string(data), -1) {
		var text string
		if err := xml.Unmarshal([]byte("<t>"+m[1]+"</t>"), &text); err != nil {
			t.Fatal(err)
		}
		texts = append(texts, text)
	}
	if len(texts) < 100 {
		t.Fatalf("only %d texts", len(texts))
	}
	return texts
}
