package main

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"fmt"
	"io"
	"path"
	"strings"
)

// longestMusicXML is the longest MusicXML file, in bytes, that is read, unpacked.
const longestMusicXML = 16 << 20

// isPacked reports whether a text is a ZIP archive, as MusicXML is packed.
func isPacked(text string) bool { return strings.HasPrefix(text, "PK\x03\x04") }

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
			return "", errors.New("a MusicXML file has at most 16 MiB")
		}
		return string(text), nil
	}
	return "", errors.New("there is no MusicXML file in this archive")
}
