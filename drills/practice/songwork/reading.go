package songwork

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"os"
	"path"
	"strings"

	"sparetone/drills/lesson"
	"sparetone/theory/song"
	"sparetone/theory/song/musicxml"
)

// The longest files, in bytes, that are read: a chart, and MusicXML, unpacked.
const (
	LongestChart    = lesson.LongestChart
	longestMusicXML = 16 << 20
)

// The errors of files that are too long.
var (
	ErrLongChart    = errors.New("a chart has at most 1 MiB")
	ErrLongMusicXML = errors.New("a MusicXML file has at most 16 MiB")
)

// ReadSong reads a chart, or a MusicXML file, packed or not.
func ReadSong(chart string) (song.Song, error) {
	var err error
	if IsPacked(chart) {
		if chart, err = unpacked(chart); err != nil {
			return song.Song{}, err
		}
	}
	if musicxml.Is(chart) {
		return musicxml.Read(chart)
	}
	return song.Read(chart)
}

// ChartFrom reads the text of a chart or of a MusicXML file from where it is read. The errors are those of the reading, and that it is
// too long.
func ChartFrom(in io.Reader) (string, error) {
	text, err := io.ReadAll(io.LimitReader(in, longestMusicXML+1))
	switch chart := string(text); {
	case err != nil:
		return "", err
	case len(text) > longestMusicXML:
		return "", ErrLongMusicXML
	case len(text) > LongestChart && !IsPacked(chart) && !musicxml.Is(chart):
		return "", ErrLongChart
	default:
		return chart, nil
	}
}

// chartAt reads the text of a chart from a file whose path a person typed.
func chartAt(typed string) (string, error) {
	name := strings.TrimSpace(typed)
	if info, err := os.Stat(name); err == nil && !info.Mode().IsRegular() {
		return "", errors.New("it is no file with a chart in it")
	}
	f, err := os.Open(name)
	if err != nil {
		return "", err
	}
	defer f.Close()
	return ChartFrom(f)
}

// IsPacked reports whether a text is a ZIP archive, as MusicXML is packed.
func IsPacked(text string) bool { return strings.HasPrefix(text, "PK\x03\x04") }

// unpacked returns the MusicXML file of an archive: the one that META-INF/container.xml names first, or else the first (W3C, MusicXML
// 4.0, Compressed .MXL files).
func unpacked(archive string) (string, error) {
	z, err := zip.NewReader(bytes.NewReader([]byte(archive)), int64(len(archive)))
	if err != nil {
		return "", fmt.Errorf("this archive cannot be read: %w", err)
	}
	name := ""
	if f, err := z.Open("META-INF/container.xml"); err == nil {
		var container struct {
			Files []struct {
				Path string `xml:"full-path,attr"`
			} `xml:"rootfiles>rootfile"`
		}
		err := xml.NewDecoder(io.LimitReader(f, longestMusicXML)).Decode(&container)
		f.Close()
		if err == nil && len(container.Files) > 0 {
			name = container.Files[0].Path
		}
	}
	for _, f := range z.File {
		if f.Name != name && (name != "" || strings.HasPrefix(f.Name, "META-INF/") || !strings.EqualFold(path.Ext(f.Name), ".xml") && !strings.EqualFold(path.Ext(f.Name), ".musicxml")) {
			continue
		}
		in, err := f.Open()
		if err != nil {
			return "", fmt.Errorf("this archive cannot be read: %w", err)
		}
		defer in.Close()
		text, err := io.ReadAll(io.LimitReader(in, longestMusicXML+1))
		switch {
		case err != nil:
			return "", fmt.Errorf("this archive cannot be read: %w", err)
		case len(text) > longestMusicXML:
			return "", ErrLongMusicXML
		}
		return string(text), nil
	}
	return "", errors.New("there is no MusicXML file in this archive")
}
