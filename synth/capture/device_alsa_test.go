//go:build unix && !darwin

package capture

import (
	"encoding/binary"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"
)

// Where no sound server answers ALSA is heard, by way of its own program; here it hears a file.
func TestALSAIsHeard(t *testing.T) {
	if os.Getenv("CI") == "" {
		t.Skip("an end-to-end test, with Debian's alsa-utils: CI=true has it run")
	}
	if _, err := exec.LookPath("arecord"); err != nil {
		t.Fatal("this needs Debian's alsa-utils")
	}
	dir := t.TempDir()
	var raw []byte
	for i := range 30 * deviceRate {
		raw = binary.LittleEndian.AppendUint16(raw, uint16(int16(8000*math.Sin(2*math.Pi*440*float64(i)/deviceRate))))
	}
	config, sound := filepath.Join(dir, "asound.conf"), filepath.Join(dir, "heard.raw")
	text := fmt.Sprintf("pcm.!default { type file slave.pcm { type null } file /dev/null infile %q format raw }\n", sound)
	for path, b := range map[string][]byte{config: []byte(text), sound: raw} {
		if err := os.WriteFile(path, b, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	t.Setenv("PULSE_SERVER", "unix:/nonexistent")
	t.Setenv("ALSA_CONFIG_PATH", config)
	written := divertOutput(t)
	m := NewMicrophone(Device())
	m.On()
	defer m.Off()
	becomes(t, m, aWord, Listening)
	loudest := 0.0
	for range 100 {
		for _, x := range m.Take().Samples {
			loudest = max(loudest, math.Abs(x))
		}
		time.Sleep(2 * time.Millisecond)
	}
	if math.Abs(loudest-8000.0/32768) > 0.01 {
		t.Errorf("it hears %.3f at the loudest; want %.3f", loudest, 8000.0/32768)
	}
	m.Off()

	// A device that is not there is said, and nothing is printed.
	t.Setenv("ALSA_CONFIG_PATH", filepath.Join(dir, "none"))
	none := NewMicrophone(Device())
	none.On()
	defer none.Off()
	becomes(t, none, aWord, Deaf, NoServer)
	if text := written(); text != "" {
		t.Errorf("written to the screen: %q", text)
	}
}
