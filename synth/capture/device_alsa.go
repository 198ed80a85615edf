//go:build unix && !darwin

package capture

import (
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
)

// alsaMayHear reports whether ALSA could have a device that hears: a card, or something that its user has set up. Else it is not asked
// again and again.
func alsaMayHear() bool {
	if os.Getenv("ALSA_CONFIG_PATH") != "" {
		return true
	}
	home, _ := os.UserHomeDir()
	for _, pattern := range []string{"/dev/snd/pcmC*D*c", "/etc/asound.conf", filepath.Join(home, ".asoundrc")} {
		if found, _ := filepath.Glob(pattern); found != nil {
			return true
		}
	}
	return false
}

// openArecord has ALSA's own program record, and reads what it hears from a pipe: so what libasound prints, at any time, reaches no
// screen, and one that hangs is ended like any program.
func openArecord(asked context.Context) (*feed, error) {
	ctx, stop := context.WithCancel(context.WithoutCancel(asked))
	wanted := context.AfterFunc(asked, stop) // nobody waits any longer for it to begin
	cmd := exec.CommandContext(ctx, "arecord", "-q", "-t", "raw", "-f", "S16_LE", "-c", "1", "-r", strconv.Itoa(deviceRate), "-F", "10000", "-B", "100000")
	var said strings.Builder
	cmd.Stderr = &said
	out, err := cmd.StdoutPipe()
	if err == nil {
		err = cmd.Start()
	}
	if err != nil {
		stop()
		return nil, &Fault{NoServer, err.Error()}
	}
	// One that has nothing to hear ends at once, and says why.
	first := make([]byte, 2*fragment)
	n, err := io.ReadAtLeast(out, first, 2)
	if !wanted() && err == nil {
		err = asked.Err()
	}
	if err != nil {
		stop()
		_ = cmd.Wait() // it has ended: what it said is whole
		return nil, &Fault{NoServer, said.String()}
	}
	f := newFeed(deviceRate, stop)
	go func() {
		defer stop()
		// A byte of the first read may be the first half of a sample.
		samples, err := ReadRaw(io.MultiReader(strings.NewReader(string(first[:n])), out), deviceRate)
		for block := make([]float64, fragment); err == nil; {
			if n, err = samples.Read(block); n > 0 {
				f.put(block[:n])
			}
		}
		_ = cmd.Wait()
		if !errors.Is(err, io.EOF) {
			said.WriteString(err.Error())
		}
		f.fail(&Fault{Gone, said.String()})
	}()
	return f, nil
}
