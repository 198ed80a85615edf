package synth

import (
	"bytes"
	"encoding/binary"
	"os"
	"strings"
	"testing"

	"sparetone/synth/measure"
)

// soundFont is Debian's fluid-soundfont-gm (MIT): a nylon guitar recorded string by string.
const soundFont = "/usr/share/sounds/sf2/FluidR3_GM.sf2"

// nylonSamples are the nylon guitar's samples by the MIDI number they sound at, as the font's own zones
// map them.
var nylonSamples = map[string]int{
	"Nylon E3": 40, "Nylon A3": 45, "Nylon D4": 50, "Nylon G4": 55, "Nylon B4": 59,
	"Nylon E5": 64, "Nylon A5": 69, "Nylon B6": 71, "Nylon E6": 76,
}

// nylonGuitarRecorded returns the recorded notes by MIDI number, each from where it begins. Format:
// SoundFont 2.04 specification, the shdr and smpl chunks.
func nylonGuitarRecorded(t testing.TB) map[int]measure.Recording {
	t.Helper()
	font, err := os.ReadFile(soundFont)
	if err != nil {
		measure.Missing(t, "Debian's fluid-soundfont-gm")
	}
	headers, samples := chunk(font, "shdr"), chunk(font, "smpl")
	notes := map[int]measure.Recording{}
	for ; len(headers) >= 46; headers = headers[46:] {
		name, _, _ := strings.Cut(string(headers[:20]), "\x00")
		midi, ok := nylonSamples[name]
		if !ok {
			continue
		}
		start, end := binary.LittleEndian.Uint32(headers[20:]), binary.LittleEndian.Uint32(headers[24:])
		r := measure.Recording{Rate: float64(binary.LittleEndian.Uint32(headers[36:]))}
		for b := samples[2*start : 2*end]; len(b) > 1; b = b[2:] {
			r.Samples = append(r.Samples, float64(int16(binary.LittleEndian.Uint16(b)))/(1<<15))
		}
		r.Samples = r.Samples[r.Onset():]
		notes[midi] = r
	}
	if len(notes) != len(nylonSamples) {
		t.Fatalf("the sound font has %d of %d nylon guitar samples", len(notes), len(nylonSamples))
	}
	return notes
}

// chunk returns what is in the RIFF chunk of that name.
func chunk(riff []byte, name string) []byte {
	i := bytes.Index(riff, []byte(name))
	for i >= 0 && name == "smpl" && binary.LittleEndian.Uint32(riff[i+4:]) < 1<<20 {
		i += 4 + bytes.Index(riff[i+4:], []byte(name)) // the word also names presets
	}
	size := binary.LittleEndian.Uint32(riff[i+4:])
	return riff[i+8:][:size]
}
