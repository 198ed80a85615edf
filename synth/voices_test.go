package synth

import (
	"flag"
	"fmt"
	"image/color"
	"math"
	"math/cmplx"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
)

// traits are what tells one voice from another, at one pitch.
type traits struct {
	bright [2]float64 // centroid in Hz at 50 and 500 ms
	decay  [3]float64 // of partials 1, 3 and 6, in dB/s
}

func traitsOf(t testing.TB, v Voice, midi int) (x traits) {
	r := plucked(t, v, midi, Options{})
	f := midiPitch(midi).Frequency(440)
	x.bright = [2]float64{r.Centroid(0.05), r.Centroid(0.5)}
	for i, k := range []int{1, 3, 6} {
		x.decay[i], _ = r.Decay(f, k, 0.05, 0.6)
	}
	return x
}

// Any two voices differ by more than a quarter in how bright they are or how long they ring.
func TestTwoVoicesDiffer(t *testing.T) {
	differ := func(a, b float64) bool { return math.Abs(math.Log(a/b)) > math.Log(1.25) }
	for i, a := range voices {
		for _, b := range voices[:i] {
			x, y := traitsOf(t, a, 69), traitsOf(t, b, 69)
			if !differ(x.bright[0], y.bright[0]) && !differ(x.bright[1], y.bright[1]) && !differ(x.decay[0], y.decay[0]) {
				t.Errorf("%s and %s sound alike: %.0f, %.0f", a.Name(), b.Name(), x, y)
			}
		}
	}
}

// One voice is one: from a note to the next, across its strings, brightness does not jump by a quarter.
func TestOneVoiceIsOne(t *testing.T) {
	for _, v := range voices {
		last := plucked(t, v, 55, Options{}).Centroid(0.05)
		for n := 56; n <= 84; n++ {
			bright := plucked(t, v, n, Options{}).Centroid(0.05)
			if step := bright / last; step > 1.25 || step < 1/1.25 {
				t.Errorf("%s: from %v to %v brightness goes from %.0f to %.0f Hz", v.Name(), midiPitch(n-1), midiPitch(n), last, bright)
			}
			last = bright
		}
	}
}

var drawInto = flag.String("draw", "", "folder that the voices are drawn and listed into")

// Okabe and Ito, "Color universal design", 2008: colours that any eye tells apart.
var lineColours = []color.Color{
	color.RGBA{0, 0, 0, 255}, color.RGBA{230, 159, 0, 255}, color.RGBA{86, 180, 233, 255},
	color.RGBA{0, 158, 115, 255}, color.RGBA{213, 94, 0, 255}, color.RGBA{204, 121, 167, 255},
}

// go test ./synth -run Draw -draw ../docs draws how each voice's A4 dies away and lists what tells the
// voices apart.
func TestDrawVoices(t *testing.T) {
	if *drawInto == "" {
		t.Skip("-draw names no folder")
	}
	list := "# Voices\n\nA4 (440 Hz), one pluck at strength 0.75. Written by `go test ./synth -run Draw -draw ../docs`.\n\n" +
		"| voice | | centroid at 50 ms | at 500 ms | partial 1 | partial 3 | partial 6 |\n|---|---|---|---|---|---|---|\n"
	for _, v := range voices {
		x := traitsOf(t, v, 69)
		list += fmt.Sprintf("| %s | %s | %.0f Hz | %.0f Hz | %.0f dB/s | %.0f dB/s | %.0f dB/s |\n",
			v.Name(), v.Title(), x.bright[0], x.bright[1], x.decay[0], x.decay[1], x.decay[2])
	}
	for _, v := range voices {
		name := "voice-" + v.Name() + ".svg"
		drawDecay(t, v, filepath.Join(*drawInto, name))
		list += fmt.Sprintf("\n![How the partials of A4 die away: %s](%s)\n", v.Title(), name)
	}
	if err := os.WriteFile(filepath.Join(*drawInto, "voices.md"), []byte(list), 0o644); err != nil {
		t.Fatal(err)
	}
}

// drawDecay draws the levels of partials 1 to 6 of A4 over 1.5 seconds.
func drawDecay(t *testing.T, v Voice, path string) {
	r := plucked(t, v, 69, Options{})
	p := plot.New()
	p.Title.Text = strings.ToUpper(v.Title()[:1]) + v.Title()[1:] + ": partials of A4"
	p.X.Label.Text = "seconds after the pluck"
	p.Y.Label.Text = "level, dBFS"
	p.X.Min, p.X.Max, p.Y.Min, p.Y.Max = 0, 1.6, -100, 0
	p.Legend.Top = true
	for k := 1; k <= 6; k++ {
		var line plotter.XYs
		for at := 0.0; at < 1.5; at += 0.025 {
			level := 20 * math.Log10(cmplx.Abs(r.At(r.Part(at, 1024), 440*float64(k))))
			if level < -100 {
				break
			}
			line = append(line, plotter.XY{X: at + 512/r.Rate, Y: level})
		}
		if len(line) == 0 {
			continue
		}
		l, err := plotter.NewLine(line)
		if err != nil {
			t.Fatal(err)
		}
		l.Color, l.Width = lineColours[k-1], vg.Points(1.5)
		p.Add(l)
		p.Legend.Add(fmt.Sprint(k), l)
	}
	if err := p.Save(14*vg.Centimeter, 8*vg.Centimeter, path); err != nil {
		t.Fatal(err)
	}
}
