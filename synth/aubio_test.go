package synth

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/gopxl/beep/v2"
)

// aubio measures the pitch of a WAV file with Debian's aubio: the median, in Hz, of what its yin finds
// between 0.2 and 0.9 seconds after the beginning.
func aubio(t testing.TB, path string) float64 {
	t.Helper()
	out, err := exec.Command("aubiopitch", "-p", "yin", "-B", "4096", "-H", "512", "-i", path).Output()
	if err != nil {
		t.Fatalf("aubiopitch: %v", err)
	}
	var found []float64
	for line := range strings.Lines(string(out)) {
		var at, f float64
		if _, err := fmt.Sscan(line, &at, &f); err == nil && at > 0.2 && at < 0.9 {
			found = append(found, f)
		}
	}
	if len(found) == 0 {
		return math.NaN()
	}
	slices.Sort(found)
	return found[len(found)/2]
}

// stream plays a recording.
func (r recording) stream() beep.Streamer {
	at := 0
	return beep.StreamerFunc(func(frames [][2]float64) (int, bool) {
		n := min(len(frames), len(r.samples)-at)
		for i := range n {
			frames[i] = [2]float64{r.samples[at+i], r.samples[at+i]}
		}
		at += n
		return n, n > 0
	})
}

// Written files are in tune by another program's measure: each voice at one pitch, with SPARETONE_STUDY=1
// at every pitch of every tuning up to A5 (higher, yin counts a period in too few samples).
func TestInTuneByAubio(t *testing.T) {
	if _, err := exec.LookPath("aubiopitch"); err != nil {
		missing(t, "Debian's aubio-tools")
	}
	dir := t.TempDir()
	for i, v := range voices {
		pitches := everyPitch()
		pitches = pitches[:slices.Index(pitches, 81)+1]
		if os.Getenv("SPARETONE_STUDY") == "" {
			pitches = []int{[]int{67, 60, 64, 69, 62, 74}[i%6]}
		}
		for _, n := range pitches {
			path := filepath.Join(dir, "note.wav")
			if err := writeWAV(path, plucked(t, v, n, Options{}).stream(), 24); err != nil {
				t.Fatal(err)
			}
			want := midiPitch(n).Frequency(440)
			got := aubio(t, path)
			if off := cents(got, want); !(math.Abs(off) <= 0.5) {
				t.Errorf("%s %v: aubio hears %.3f Hz, %.2f cents off", v.Name(), midiPitch(n), got, off)
			} else {
				t.Logf("%s %v: %.3f cents off", v.Name(), midiPitch(n), off)
			}
		}
	}
}
