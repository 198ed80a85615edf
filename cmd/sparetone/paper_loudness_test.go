package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"

	"sparetone/drills/catalogue"
)

// summed finds the loudness and the true peak in what ffmpeg's ebur128 filter sums up at its end.
var summed = regexp.MustCompile(`(?s)Summary:.*I:\s+(-?[0-9.]+) LUFS.*Peak:\s+(-?[0-9.]+) dBFS`)

// Any two sounds of any drill lie within 1 LU of each other and none peaks above −1 dBTP, measured by
// ffmpeg (ITU-R BS.1770-5). With SPARETONE_STUDY=1 it is some 500 questions.
func TestDrillsAreEquallyLoud(t *testing.T) {
	need(t, "ffmpeg")
	count := 3
	if os.Getenv("SPARETONE_STUDY") != "" {
		count = 84
	}
	softest, loudest, highest, heard := 0.0, -100.0, -100.0, 0
	for _, d := range catalogue.All() {
		files, err := filepath.Glob(filepath.Join(written(t, d.About().ID, count, 9), "*.wav"))
		if err != nil {
			t.Fatal(err)
		}
		for _, file := range files {
			out, err := exec.Command("ffmpeg", "-hide_banner", "-nostats", "-i", file, "-filter_complex", "ebur128=peak=true", "-f", "null", "-").CombinedOutput()
			m := summed.FindSubmatch(out)
			if err != nil || m == nil {
				t.Fatalf("%s: %v\n%s", file, err, out)
			}
			lufs, _ := strconv.ParseFloat(string(m[1]), 64)
			peak, _ := strconv.ParseFloat(string(m[2]), 64)
			softest, loudest, highest = min(softest, lufs), max(loudest, lufs), max(highest, peak)
			heard++
		}
	}
	if heard == 0 || loudest-softest > 1 || highest > -1 {
		t.Errorf("%d sounds from %.1f to %.1f LUFS, true peak up to %.1f dBTP", heard, softest, loudest, highest)
	}
	t.Logf("%d sounds: %.1f to %.1f LUFS, true peak up to %.1f dBTP", heard, softest, loudest, highest)
}
