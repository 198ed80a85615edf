package command

import (
	"os"
	"path/filepath"
	"runtime"
)

// dataFolder is where programs keep a person's data: by the XDG Base Directory Specification
// $XDG_DATA_HOME, else ~/.local/share; the customary folders on macOS and Windows.
func dataFolder() (string, error) {
	if d := os.Getenv("XDG_DATA_HOME"); filepath.IsAbs(d) {
		return d, nil
	}
	switch runtime.GOOS {
	case "windows", "darwin":
		return os.UserConfigDir()
	}
	home, err := os.UserHomeDir()
	return filepath.Join(home, ".local", "share"), err
}
