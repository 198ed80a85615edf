package synth

import (
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"testing"

	"sparetone/synth/measure"
)

// Written files are in tune by another program's measure: each voice at one pitch, with SPARETONE_STUDY=1
// at every pitch of every tuning up to A5 (higher, yin counts a period in too few samples).
func TestInTuneByAubio(t *testing.T) {
	if _, err := exec.LookPath("aubiopitch"); err != nil {
		measure.Missing(t, "Debian's aubio-tools")
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
			if err := writeWAV(path, plucked(t, v, n, Options{}).Stream(), 24); err != nil {
				t.Fatal(err)
			}
			want := midiPitch(n).Frequency(440)
			got := measure.Aubio(t, path)
			if off := measure.Cents(got, want); !(math.Abs(off) <= 0.5) {
				t.Errorf("%s %v: aubio hears %.3f Hz, %.2f cents off", v.Name(), midiPitch(n), got, off)
			} else {
				t.Logf("%s %v: %.3f cents off", v.Name(), midiPitch(n), off)
			}
		}
	}
}
