package synth

import (
	"bytes"
	"encoding/binary"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"sparetone/theory"
)

// midiEvents reads a track of a Standard MIDI File: each event with its tick.
func midiEvents(t *testing.T, track []byte) (out []string) {
	t.Helper()
	number := func() (n int) {
		for {
			b := track[0]
			track = track[1:]
			if n = n<<7 | int(b&0x7F); b < 0x80 {
				return n
			}
		}
	}
	tick := 0
	for len(track) > 0 {
		tick += number()
		status := track[0]
		switch {
		case status == 0xFF:
			kind := track[1]
			track = track[2:]
			n := number()
			out = append(out, fmt.Sprintf("%d meta %02x %q", tick, kind, track[:n]))
			track = track[n:]
		case status&0xF0 == 0xC0:
			out = append(out, fmt.Sprintf("%d program %d %d", tick, status&15, track[1]))
			track = track[2:]
		default:
			out = append(out, fmt.Sprintf("%d %x %d %d", tick, status, track[1], track[2]))
			track = track[3:]
		}
	}
	return out
}

// midiTracks divides a file into its tracks.
func midiTracks(t *testing.T, file []byte) (tracks [][]byte) {
	t.Helper()
	if string(file[:8]) != "MThd\x00\x00\x00\x06" || binary.BigEndian.Uint16(file[8:]) != 1 || binary.BigEndian.Uint16(file[12:]) != 960 {
		t.Fatalf("% x", file[:14])
	}
	count := int(binary.BigEndian.Uint16(file[10:]))
	for rest := file[14:]; len(rest) > 0; {
		n := int(binary.BigEndian.Uint32(rest[4:]))
		tracks = append(tracks, rest[8:8+n])
		rest = rest[8+n:]
	}
	if len(tracks) != count {
		t.Fatalf("%d tracks, %d said", len(tracks), count)
	}
	return tracks
}

// midiScore is a score of two strings at 120 beats a minute, and what is said beside it.
func midiScore(t *testing.T) (Score, MIDI) {
	c := sounding(t, "4:G4 1:C5")
	s := Score{Length: 4 * time.Second, Plucks: []Pluck{
		{String: 4, Pitch: c[0].Pitch, At: 0, Strength: 1},
		{String: 1, Pitch: c[1].Pitch, At: 500 * time.Millisecond, Strength: 0.5, Damp: 250 * time.Millisecond},
		{String: 4, Pitch: theory.Pitch{Note: theory.Note{Letter: theory.A}, Octave: 4}, At: time.Second, Strength: 1, Slur: true},
	}}
	return s, MIDI{
		Title: "T", Tempo: 120, Beats: 6, Unit: 8, Sharps: -2, Minor: true, Texts: []Text{{time.Second, "Am7"}},
		Strings: []StringTrack{{4, "g"}, {1, ""}},
	}
}

func TestMIDIFile(t *testing.T) {
	s, m := midiScore(t)
	var file bytes.Buffer
	if err := WriteMIDI(&file, s, m); err != nil {
		t.Fatal(err)
	}
	tracks := midiTracks(t, file.Bytes())
	for n, want := range []string{
		`0 meta 03 "T"|0 meta 51 "\x0fB@"|0 meta 58 "\x06\x03\f\b"|0 meta 59 "\xfe\x01"|960 meta 01 "Am7"|960 meta 2f ""`,
		`0 meta 03 "g"|0 program 0 24|0 90 67 127|960 80 67 64|960 90 69 127|3840 80 69 64|3840 meta 2f ""`,
		`0 meta 03 "1"|0 program 1 24|480 91 72 64|720 81 72 64|720 meta 2f ""`,
	} {
		if got := strings.Join(midiEvents(t, tracks[n]), "|"); got != want {
			t.Errorf("track %d:\n%s, want\n%s", n, got, want)
		}
	}
	for _, bad := range []MIDI{{Tempo: 0, Beats: 4, Unit: 4}, {Tempo: 120, Beats: 0, Unit: 4}, {Tempo: 120, Beats: 4, Unit: 3}} {
		if WriteMIDI(&file, s, bad) == nil {
			t.Errorf("%+v is written", bad)
		}
	}
}

// Two programs of others read the file as we do.
func TestMIDIFileReadByOthers(t *testing.T) {
	s, m := midiScore(t)
	path := filepath.Join(t.TempDir(), "m.mid")
	var file bytes.Buffer
	if err := WriteMIDI(&file, s, m); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(path, file.Bytes(), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Run("midicsv", func(t *testing.T) {
		if _, err := exec.LookPath("midicsv"); err != nil {
			t.Skip("midicsv is not here")
		}
		out, err := exec.Command("midicsv", path).CombinedOutput()
		for _, line := range []string{
			"1, 0, Tempo, 1000000", "1, 0, Time_signature, 6, 3, 12, 8", `1, 0, Key_signature, -2, "minor"`, `1, 960, Text_t, "Am7"`,
			"2, 0, Note_on_c, 0, 67, 127", "2, 960, Note_on_c, 0, 69, 127", "3, 480, Note_on_c, 1, 72, 64", "3, 720, Note_off_c, 1, 72, 64",
		} {
			if err != nil || !strings.Contains(string(out), line+"\n") {
				t.Errorf("%q is not in\n%s%v", line, out, err)
			}
		}
	})
	t.Run("mido", func(t *testing.T) {
		if exec.Command("/usr/bin/python3", "-c", "import mido").Run() != nil {
			t.Skip("mido is not here")
		}
		out, err := exec.Command("/usr/bin/python3", "-c", `
import mido, sys
f = mido.MidiFile(sys.argv[1])
at = 0
print(f.type, len(f.tracks))
for e in f:
    at += e.time
    if e.type == "note_on": print("%.3f %d" % (at, e.note))
`, path).CombinedOutput()
		if want := "1 3\n0.000 67\n0.500 72\n1.000 69\n"; err != nil || string(out) != want {
			t.Errorf("%s, want %s: %v", out, want, err)
		}
	})
}
