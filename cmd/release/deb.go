package main

import (
	"bytes"
	"crypto/md5"
	"fmt"
	"strings"
)

// A Debian package is an ar archive of three members: which form it has, what dpkg is to know, and the files (deb(5)). Of
// other packages it needs the C library alone, by which it looks for PulseAudio or ALSA when it runs.

// maintainer is whom Debian names as responsible; there is nobody to write to.
const maintainer = "sparetone <sparetone@users.noreply.invalid>"

// debianVersion writes a version as Debian orders it: what comes before a release comes after a tilde (deb-version(7)).
func debianVersion(version string) string { return strings.Replace(version, "-", "~", 1) }

// debianPlaces are where files of an archive lie in Debian, and how.
var debianPlaces = map[string]string{
	"sparetone":                  "usr/bin/sparetone",
	"README.md":                  "usr/share/doc/sparetone/README.md",
	"completions/sparetone.bash": "usr/share/bash-completion/completions/sparetone",
	"completions/sparetone.fish": "usr/share/fish/vendor_completions.d/sparetone.fish",
	"completions/_sparetone":     "usr/share/zsh/vendor-completions/_sparetone",
}

// debOf returns the Debian package with the files of an archive.
func debOf(c commit, arch string, files []file) ([]byte, error) {
	data, err := debianFiles(c, files)
	if err != nil {
		return nil, err
	}
	var sums bytes.Buffer
	size := 0
	for _, f := range inOrder(data) {
		fmt.Fprintf(&sums, "%x  %s\n", md5.Sum(f.bytes), f.name)
		size += (len(f.bytes) + 1023) / 1024
	}
	about := fmt.Sprintf(`Package: sparetone
Version: %s
Architecture: %s
Maintainer: %s
Installed-Size: %d
Depends: libc6
Recommends: libpulse0 | libasound2t64 | libasound2
Section: education
Priority: optional
Description: ear and theory practice for small fretted instruments
 Ten minutes a day in a terminal, for players and teachers of the ukulele and
 other small fretted instruments: to know what each string does in a chord, to
 hear what was added to it, and to keep it.
`, debianVersion(c.version), arch, maintainer, size)
	control, err := tarOf("./", []file{{"control", []byte(about), false}, {"md5sums", sums.Bytes(), false}}, c.at)
	if err != nil {
		return nil, err
	}
	content, err := tarOf("./", data, c.at)
	if err != nil {
		return nil, err
	}
	return arOf([]arMember{{"debian-binary", []byte("2.0\n")}, {"control.tar.gz", control}, {"data.tar.gz", content}}, c.at), nil
}

// debianFiles returns the files of a Debian package.
func debianFiles(c commit, files []file) (out []file, err error) {
	var licence []byte
	for _, f := range files {
		switch at, known := debianPlaces[f.name]; {
		case known:
			out = append(out, file{at, f.bytes, f.executable})
		case f.name == "LICENSE":
			licence = f.bytes
		case f.name == "man/sparetone.1":
			packed, err := gzipped(f.bytes)
			if err != nil {
				return nil, err
			}
			out = append(out, file{"usr/share/man/man1/sparetone.1.gz", packed, false})
		case strings.HasPrefix(f.name, "licences/"):
			out = append(out, file{"usr/share/doc/sparetone/" + f.name, f.bytes, false})
		}
	}
	changes, err := gzipped(fmt.Appendf(nil, "sparetone (%s) stable; urgency=medium\n\n  * Built from its source.\n\n -- %s  %s\n", debianVersion(c.version), maintainer, rfc5322(c.at)))
	if err != nil {
		return nil, err
	}
	said := "sparetone, and under licences/ the terms of all that is built into it.\n\n"
	return append(out, file{"usr/share/doc/sparetone/changelog.gz", changes, false}, file{"usr/share/doc/sparetone/copyright", append([]byte(said), licence...), false}), nil
}
