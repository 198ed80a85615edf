//go:build unix && !darwin

package capture

import (
	"errors"
	"os"
	"path/filepath"
	"testing"

	"github.com/jfreymuth/pulse/proto"
)

// The microphone that the system has chosen is listened to, else the first; the sound of the loudspeakers is none.
func TestTheMicrophoneThatIsChosen(t *testing.T) {
	of := func(names ...string) (out proto.GetSourceInfoListReply) {
		for _, name := range names {
			s := &proto.GetSourceInfoReply{SourceName: name, MonitorSourceIndex: none}
			if name == "loudspeakers.monitor" {
				s.MonitorSourceIndex = 0
			}
			out = append(out, s)
		}
		return out
	}
	for want, c := range map[string]struct {
		sources []string
		chosen  string
	}{
		"desk":   {[]string{"loudspeakers.monitor", "camera", "desk"}, "desk"},
		"camera": {[]string{"loudspeakers.monitor", "camera", "desk"}, "loudspeakers.monitor"},
		"first":  {[]string{"first", "second"}, "none of these"},
	} {
		if got, err := microphoneOf(of(c.sources...), c.chosen); got != want || err != nil {
			t.Errorf("of %v, of which %s is chosen: %q, %v", c.sources, c.chosen, got, err)
		}
	}
	var f *Fault
	if _, err := microphoneOf(of("loudspeakers.monitor"), ""); !errors.As(err, &f) || f.Kind != NoServer {
		t.Errorf("where there are loudspeakers alone: %v", err)
	}
}

// ALSA is asked for sound where it is set up: by a variable, or by a file of the user's.
func TestWhereALSAMayHear(t *testing.T) {
	home := t.TempDir()
	t.Setenv("HOME", home)
	t.Setenv("ALSA_CONFIG_PATH", "/dev/null")
	if !alsaMayHear() {
		t.Error("where a variable sets it up it is not asked")
	}
	t.Setenv("ALSA_CONFIG_PATH", "")
	if err := os.WriteFile(filepath.Join(home, ".asoundrc"), nil, 0o600); err != nil {
		t.Fatal(err)
	}
	if !alsaMayHear() {
		t.Error("where a file of the user's sets it up it is not asked")
	}
}
