package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"cmp"
	"compress/gzip"
	"crypto/sha256"
	"errors"
	"fmt"
	"io"
	"path"
	"slices"
	"strings"
	"time"
)

// inOrder returns files by name, so that an archive does not depend on how they were found.
func inOrder(files []file) []file {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b file) int { return strings.Compare(a.name, b.name) })
	return files
}

// foldersOf lists the folders that files lie in, each before what lies in it.
func foldersOf(files []file) (folders []string) {
	for _, f := range files {
		for at := path.Dir(f.name); at != "."; at = path.Dir(at) {
			folders = append(folders, at)
		}
	}
	slices.Sort(folders)
	return slices.Compact(folders)
}

// mode is what somebody may do with a file: everybody may read it, and run a program.
func (f file) mode() int64 {
	if f.executable {
		return 0o755
	}
	return 0o644
}

// tarOf returns a tar archive (pax), packed with gzip, of files below a folder, all of one time and of nobody in particular.
func tarOf(below string, files []file, at time.Time) ([]byte, error) {
	var out bytes.Buffer
	zipped := gzip.NewWriter(&out)
	w := tar.NewWriter(zipped)
	add := func(h tar.Header, bytes []byte) error {
		h.Name, h.ModTime, h.Size, h.Format = below+h.Name, at, int64(len(bytes)), tar.FormatPAX
		if err := w.WriteHeader(&h); err != nil {
			return err
		}
		_, err := w.Write(bytes)
		return err
	}
	for _, folder := range append([]string{""}, foldersOf(files)...) {
		if err := add(tar.Header{Typeflag: tar.TypeDir, Name: strings.TrimPrefix(folder+"/", "/"), Mode: 0o755}, nil); err != nil {
			return nil, err
		}
	}
	for _, f := range inOrder(files) {
		if err := add(tar.Header{Typeflag: tar.TypeReg, Name: f.name, Mode: f.mode()}, f.bytes); err != nil {
			return nil, err
		}
	}
	err := errors.Join(w.Close(), zipped.Close())
	return out.Bytes(), err
}

// zipOf returns a zip archive of files in a folder, all of one time.
func zipOf(folder string, files []file, at time.Time) ([]byte, error) {
	var out bytes.Buffer
	w := zip.NewWriter(&out)
	for _, f := range inOrder(files) {
		h := zip.FileHeader{Name: folder + "/" + f.name, Method: zip.Deflate, Modified: at.UTC()}
		h.SetMode(0o644)
		if f.executable {
			h.SetMode(0o755)
		}
		to, err := w.CreateHeader(&h)
		if err != nil {
			return nil, err
		}
		if _, err := to.Write(f.bytes); err != nil {
			return nil, err
		}
	}
	err := w.Close()
	return out.Bytes(), err
}

// gzipped packs bytes without a name and a time.
func gzipped(content []byte) ([]byte, error) {
	var out bytes.Buffer
	w, err := gzip.NewWriterLevel(&out, gzip.BestCompression)
	if err != nil {
		return nil, err
	}
	_, err = w.Write(content)
	err = errors.Join(err, w.Close())
	return out.Bytes(), err
}

// sum is the checksum of a file.
type sum struct {
	name string
	of   [sha256.Size]byte
}

func sumOf(name string, bytes []byte) sum { return sum{name, sha256.Sum256(bytes)} }

// sumsOf writes checksums as sha256sum --check reads them, by name.
func sumsOf(sums []sum) []byte {
	slices.SortFunc(sums, func(a, b sum) int { return cmp.Compare(a.name, b.name) })
	var out bytes.Buffer
	for _, s := range sums {
		fmt.Fprintf(&out, "%x  %s\n", s.of, s.name)
	}
	return out.Bytes()
}

// arMember is a file of an ar archive.
type arMember struct {
	name  string
	bytes []byte
}

// arOf returns an archive in the common format of ar, as dpkg reads it (deb(5)).
func arOf(members []arMember, at time.Time) []byte {
	var out bytes.Buffer
	io.WriteString(&out, "!<arch>\n")
	for _, m := range members {
		fmt.Fprintf(&out, "%-16s%-12d%-6d%-6d%-8s%-10d`\n", m.name, at.Unix(), 0, 0, "100644", len(m.bytes))
		out.Write(m.bytes)
		if len(m.bytes)%2 == 1 {
			out.WriteByte('\n')
		}
	}
	return out.Bytes()
}

// file is a file of a release.
type file struct {
	name       string // with slashes
	bytes      []byte
	executable bool
}
