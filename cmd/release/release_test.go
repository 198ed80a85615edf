package main

import (
	"archive/tar"
	"archive/zip"
	"bytes"
	"compress/gzip"
	"context"
	"crypto/md5"
	"crypto/sha256"
	"debug/elf"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// moment is when what is packed here was committed, in a time zone of somebody's.
var moment = time.Date(2026, 3, 4, 18, 30, 2, 0, time.FixedZone("", 3600))

// some are files of a release.
var some = []file{
	{"sparetone", []byte("#!/bin/true\n"), true},
	{"README.md", []byte("read"), false},
	{"LICENSE", []byte("MIT"), false},
	{"man/sparetone.1", []byte(".TH"), false},
	{"completions/sparetone.bash", []byte("bash"), false},
	{"completions/sparetone.fish", []byte("fish"), false},
	{"completions/sparetone.ps1", []byte("powershell"), false},
	{"completions/_sparetone", []byte("zsh"), false},
	{"licences/example.org/m@v1.0.0/LICENSE", []byte("theirs"), false},
}

// backwards returns some files as they might be found elsewhere.
func backwards(files []file) []file {
	files = slices.Clone(files)
	slices.Reverse(files)
	return files
}

// entry is what an archive says of a file.
type entry struct {
	name  string
	mode  int64
	bytes string
}

// untarred reads a tar archive, and checks that it says nothing of whoever made it.
func untarred(t *testing.T, packed []byte) (all []entry) {
	t.Helper()
	unzipped, err := gzip.NewReader(bytes.NewReader(packed))
	if err != nil {
		t.Fatal(err)
	}
	if !unzipped.ModTime.IsZero() || unzipped.Name != "" {
		t.Errorf("%+v", unzipped.Header)
	}
	for in := tar.NewReader(unzipped); ; {
		h, err := in.Next()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		if !h.ModTime.Equal(moment) || h.Uid != 0 || h.Gid != 0 || h.Uname != "" || h.Gname != "" {
			t.Errorf("%+v", h)
		}
		content, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		all = append(all, entry{h.Name, h.Mode, string(content)})
	}
}

// An archive does not depend on the order in which files were found, on the clock or on the time zone; programs may be run, and
// folders come before what is in them.
func TestArchivesAreTheSameAgain(t *testing.T) {
	c := commit{"1.2.3", moment}
	for name, pack := range map[string]func(files []file, at time.Time) ([]byte, error){
		"tar": func(files []file, at time.Time) ([]byte, error) { return tarOf("x/", files, at) },
		"zip": func(files []file, at time.Time) ([]byte, error) { return zipOf("x", files, at) },
		"deb": func(files []file, at time.Time) ([]byte, error) { return debOf(commit{c.version, at}, "amd64", files) },
	} {
		one, err := pack(some, moment)
		if err != nil {
			t.Fatal(err)
		}
		other, err := pack(backwards(some), moment.UTC())
		if err != nil || !bytes.Equal(one, other) {
			t.Errorf("%s: not the same bytes; %v", name, err)
		}
	}
	packed, err := tarOf("x/", some[3:5], moment)
	if err != nil {
		t.Fatal(err)
	}
	want := []entry{{"x/", 0o755, ""}, {"x/completions/", 0o755, ""}, {"x/man/", 0o755, ""}, {"x/completions/sparetone.bash", 0o644, "bash"}, {"x/man/sparetone.1", 0o644, ".TH"}}
	if diff := cmp.Diff(want, untarred(t, packed), cmp.AllowUnexported(entry{})); diff != "" {
		t.Error(diff)
	}
	if packed, err = tarOf("x/", some[:1], moment); err != nil {
		t.Fatal(err)
	}
	if got := untarred(t, packed); got[1] != (entry{"x/sparetone", 0o755, "#!/bin/true\n"}) {
		t.Error(got)
	}
	zipped, err := zipOf("x", some, moment)
	if err != nil {
		t.Fatal(err)
	}
	in, err := zip.NewReader(bytes.NewReader(zipped), int64(len(zipped)))
	if err != nil || len(in.File) != len(some) || in.File[0].Name != "x/LICENSE" {
		t.Fatalf("%+v, %v", in, err)
	}
	for _, f := range in.File {
		if want := map[bool]os.FileMode{true: 0o755, false: 0o644}[f.Name == "x/sparetone"]; f.Mode() != want || !f.Modified.Equal(moment) {
			t.Errorf("%s: %v, %v", f.Name, f.Mode(), f.Modified)
		}
	}
}

// membersOf reads an ar archive.
func membersOf(t *testing.T, packed []byte) (names []string, content map[string][]byte) {
	t.Helper()
	rest, ours := bytes.CutPrefix(packed, []byte("!<arch>\n"))
	if !ours {
		t.Fatal("this is no ar archive")
	}
	content = map[string][]byte{}
	for len(rest) > 0 {
		var size int
		head := string(rest[:60])
		if _, err := fmt.Sscan(head[48:58], &size); err != nil || head[58:] != "`\n" || strings.TrimSpace(head[16:28]) != fmt.Sprint(moment.Unix()) {
			t.Fatalf("%q, %v", head, err)
		}
		name := strings.TrimSpace(head[:16])
		names, content[name] = append(names, name), rest[60:60+size]
		rest = rest[60+size+size%2:]
	}
	return names, content
}

// A Debian package has its three members in order, every file at its place with its checksum, and what dpkg asks for.
func TestDebianPackage(t *testing.T) {
	packed, err := debOf(commit{"0.0.0-20260304.abc", moment}, "arm64", some)
	if err != nil {
		t.Fatal(err)
	}
	names, members := membersOf(t, packed)
	if !slices.Equal(names, []string{"debian-binary", "control.tar.gz", "data.tar.gz"}) || string(members["debian-binary"]) != "2.0\n" {
		t.Errorf("%q", names)
	}
	data := map[string]entry{}
	for _, e := range untarred(t, members["data.tar.gz"]) {
		data[e.name] = e
	}
	control := map[string]string{}
	for _, e := range untarred(t, members["control.tar.gz"]) {
		control[e.name] = e.bytes
	}
	for name, want := range map[string]entry{
		"./usr/bin/sparetone":                                             {mode: 0o755, bytes: "#!/bin/true\n"},
		"./usr/share/bash-completion/completions/sparetone":               {mode: 0o644, bytes: "bash"},
		"./usr/share/fish/vendor_completions.d/sparetone.fish":            {mode: 0o644, bytes: "fish"},
		"./usr/share/zsh/vendor-completions/_sparetone":                   {mode: 0o644, bytes: "zsh"},
		"./usr/share/doc/sparetone/README.md":                             {mode: 0o644, bytes: "read"},
		"./usr/share/doc/sparetone/licences/example.org/m@v1.0.0/LICENSE": {mode: 0o644, bytes: "theirs"},
		"./usr/share/doc/sparetone/copyright":                             {mode: 0o644, bytes: "sparetone, and under licences/ the terms of all that is built into it.\n\nMIT"},
	} {
		if got := data[name]; got.mode != want.mode || got.bytes != want.bytes {
			t.Errorf("%s: %+v", name, got)
		}
	}
	for name, want := range map[string]string{"man/man1/sparetone.1.gz": ".TH", "doc/sparetone/changelog.gz": "sparetone (0.0.0~20260304.abc) stable; urgency=medium\n\n  * Built from its source.\n\n -- " + maintainer + "  Wed, 04 Mar 2026 17:30:02 +0000\n"} {
		in, err := gzip.NewReader(strings.NewReader(data["./usr/share/"+name].bytes))
		if err != nil {
			t.Fatalf("%s: %v", name, err)
		}
		if got, err := io.ReadAll(in); string(got) != want || err != nil {
			t.Errorf("%s: %q, %v", name, got, err)
		}
	}
	files := 0
	for name, e := range data {
		if strings.HasSuffix(name, "/") {
			continue
		}
		files++
		if line := fmt.Sprintf("%x  %s\n", md5.Sum([]byte(e.bytes)), strings.TrimPrefix(name, "./")); !strings.Contains(control["./md5sums"], line) {
			t.Errorf("md5sums lacks %q", line)
		}
	}
	if files != 9 || strings.Count(control["./md5sums"], "\n") != files {
		t.Errorf("%d files, and %q", files, control["./md5sums"])
	}
	for _, line := range []string{"Package: sparetone\n", "Version: 0.0.0~20260304.abc\n", "Architecture: arm64\n", "Maintainer: " + maintainer + "\n", "Installed-Size: 9\n", "Depends: libc6\n", "Description: "} {
		if !strings.Contains("\n"+control["./control"], "\n"+line) {
			t.Errorf("control lacks %q: %s", line, control["./control"])
		}
	}
	if dpkg, err := exec.LookPath("dpkg-deb"); err == nil {
		path := filepath.Join(t.TempDir(), "x.deb")
		if err := os.WriteFile(path, packed, 0o600); err != nil {
			t.Fatal(err)
		}
		if said, err := exec.Command(dpkg, "--contents", path).CombinedOutput(); err != nil || !strings.Contains(string(said), "./usr/bin/sparetone") {
			t.Errorf("%s, %v", said, err)
		}
	}
}

func TestVersions(t *testing.T) {
	for _, c := range []struct {
		tags []string
		want string
	}{
		{nil, "0.0.0-20260304.abc"},
		{[]string{"monday", "v1"}, "0.0.0-20260304.abc"},
		{[]string{"monday", "v1.2.3"}, "1.2.3"},
		{[]string{"v1.2.3-rc.1"}, "1.2.3-rc.1"},
		{[]string{"v1.2.3 x", "xv1.2.3", "v1.2.3+x"}, "0.0.0-20260304.abc"},
	} {
		if got := versionOf(c.tags, moment, "abc"); got != c.want {
			t.Errorf("%q: %s, want %s", c.tags, got, c.want)
		}
	}
	if got := debianVersion("1.2.3-rc.1-2"); got != "1.2.3~rc.1-2" {
		t.Error(got)
	}
	if got, err := wanted("linux/arm64,windows/amd64"); err != nil || !slices.Equal(got, []platform{{"linux", "arm64"}, {"windows", "amd64"}}) {
		t.Error(got, err)
	}
	if got, err := wanted(""); err != nil || len(got) != 6 {
		t.Error(got, err)
	}
	if _, err := wanted("linux/amd64,plan9/amd64"); err == nil {
		t.Error("a platform that is not released was taken")
	}
}

// The man page has the date of the commit, and nothing else of it is changed.
func TestManPageIsDated(t *testing.T) {
	page := ".TH SPARETONE 1 \"%s\" \"sparetone\"\n.SH NAME\n on \"2026-01-01\"\n"
	got, err := dated(fmt.Sprintf(page, "2031-12-31"), time.Date(2026, 3, 5, 0, 30, 0, 0, time.FixedZone("", 3600)))
	if want := fmt.Sprintf(page, "2026-03-04"); err != nil || string(got) != want {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
	if _, err := dated(".SH NAME\n", moment); err == nil {
		t.Error("a page without a date was dated")
	}
}

func TestChecksums(t *testing.T) {
	got := string(sumsOf([]sum{sumOf("b", []byte("2")), sumOf("a", []byte("1"))}))
	if want := fmt.Sprintf("%x  a\n%x  b\n", sha256.Sum256([]byte("1")), sha256.Sum256([]byte("2"))); got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// What is released of a platform: an archive of the kind that is usual there, and for Linux a package.
func TestWhatIsReleased(t *testing.T) {
	var names []string
	for _, p := range platforms {
		for name := range packed(commit{"1.2.3", moment}, p, nil) {
			names = append(names, name)
		}
	}
	slices.Sort(names)
	want := strings.Fields(`sparetone-1.2.3-darwin-amd64.tar.gz sparetone-1.2.3-darwin-arm64.tar.gz sparetone-1.2.3-linux-amd64.tar.gz sparetone-1.2.3-linux-arm64.tar.gz
		sparetone-1.2.3-windows-amd64.zip sparetone-1.2.3-windows-arm64.zip sparetone_1.2.3_amd64.deb sparetone_1.2.3_arm64.deb`)
	if diff := cmp.Diff(want, names); diff != "" {
		t.Error(diff)
	}
}

// Every module that is built into the program, on every platform, has its terms in the release.
func TestEveryLibraryHasItsTerms(t *testing.T) {
	t.Chdir("../..")
	these := []platform{{"linux", "amd64"}, {"windows", "amd64"}}
	if os.Getenv("SPARETONE_STUDY") != "" {
		these = platforms
	}
	for _, p := range these {
		files, err := licencesOf(context.Background(), p)
		if err != nil {
			t.Fatal(err)
		}
		modules, err := run(context.Background(), environment(p), "go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}}@{{.Version}}{{end}}{{end}}", program)
		if err != nil {
			t.Fatal(err)
		}
		met := 0
		for module := range strings.FieldsSeq(modules) {
			met++
			if !slices.ContainsFunc(files, func(f file) bool { return strings.HasPrefix(f.name, "licences/"+module+"/") && len(f.bytes) > 100 }) {
				t.Errorf("%s: nothing of %s", p, module)
			}
		}
		if met < 20 || !slices.ContainsFunc(files, func(f file) bool {
			return f.name == "licences/go/LICENSE" && bytes.Contains(f.bytes, []byte("The Go Authors"))
		}) {
			t.Errorf("%s: %d packages", p, met)
		}
		if p.os == "linux" && !slices.ContainsFunc(files, func(f file) bool { return bytes.Contains(f.bytes, []byte("Bitstream Vera")) }) {
			t.Errorf("%s: nothing of the fonts", p)
		}
	}
}

// The release itself: built twice from two folders it has the same bytes; the archive runs where there is nothing else; the package
// is put on, runs and is taken off. SPARETONE_RELEASE=1 does so for this machine's platform, and SPARETONE_RELEASE=all builds
// all; the package is put on only where CI is set.
//
//	SPARETONE_RELEASE=all go test -run Released -timeout 1h -v ./cmd/release
func TestReleased(t *testing.T) {
	how := os.Getenv("SPARETONE_RELEASE")
	if how == "" {
		t.Skip("building takes minutes: SPARETONE_RELEASE=1")
	}
	here := platform{runtime.GOOS, runtime.GOARCH}
	only := here.String()
	if how == "all" {
		only = ""
	}
	var builds []string
	for i := range 2 {
		// A clone in a folder of another name.
		source := filepath.Join(t.TempDir(), strings.Repeat("x", 1+i))
		if out, err := exec.Command("git", "clone", "-q", "../..", source).CombinedOutput(); err != nil {
			t.Fatalf("%s, %v", out, err)
		}
		out := filepath.Join(t.TempDir(), "dist")
		t.Chdir(source)
		if err := release(context.Background(), out, only, false, nil); err != nil {
			t.Fatal(err)
		}
		builds = append(builds, out)
		t.Chdir(filepath.Join(source, "cmd", "release"))
	}
	one, other := contentsOf(t, builds[0]), contentsOf(t, builds[1])
	for name, bytes_ := range one {
		if !bytes.Equal(bytes_, other[name]) {
			t.Errorf("%s is not the same the second time", name)
		}
	}
	if len(one) != len(other) || len(one) < 2 {
		t.Errorf("%d files and %d", len(one), len(other))
	}
	t.Logf("%d files, twice the same: %s", len(one), one["SHA256SUMS"])
	if out, err := commandIn(builds[0], "sha256sum", "--check", "SHA256SUMS"); err != nil {
		t.Errorf("%s, %v", out, err)
	}
	if here.os != "linux" {
		return
	}
	t.Run("in an empty root", func(t *testing.T) { runsInAnEmptyRoot(t, builds[0], here) })
	t.Run("Debian package", func(t *testing.T) { installs(t, builds[0], here) })
}

// contentsOf reads the files of a folder.
func contentsOf(t *testing.T, folder string) map[string][]byte {
	t.Helper()
	all := map[string][]byte{}
	entries, err := os.ReadDir(folder)
	if err != nil {
		t.Fatal(err)
	}
	for _, e := range entries {
		if all[e.Name()], err = os.ReadFile(filepath.Join(folder, e.Name())); err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// commandIn runs a command in a folder and returns all it said.
func commandIn(folder, name string, args ...string) (string, error) {
	cmd := exec.Command(name, args...)
	cmd.Dir = folder
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// theOne returns the one file of a folder that a pattern names.
func theOne(t *testing.T, folder, pattern string) string {
	t.Helper()
	names, err := filepath.Glob(filepath.Join(folder, pattern))
	if err != nil || len(names) != 1 {
		t.Fatalf("%s: %v, %v", pattern, names, err)
	}
	return names[0]
}

// session is what somebody types who practises in lines.
const session = "1\n\n0\n\nq\nyes\n"

// runsInAnEmptyRoot unpacks the archive where there is nothing but the C library, no device and no other file, and practises there.
func runsInAnEmptyRoot(t *testing.T, dist string, p platform) {
	root := t.TempDir()
	if out, err := commandIn(root, "tar", "-xzf", theOne(t, dist, "sparetone-*-linux-"+p.arch+".tar.gz")); err != nil {
		t.Fatalf("%s, %v", out, err)
	}
	folder := filepath.Base(theOne(t, root, "sparetone-*"))
	copyLibraries(t, filepath.Join(root, folder, "sparetone"), root)
	practise := func(args ...string) *exec.Cmd {
		call := append([]string{root, "/" + folder + "/sparetone"}, args...)
		if os.Getuid() == 0 {
			return exec.Command("chroot", call...)
		}
		return exec.Command("unshare", append([]string{"--map-root-user", "chroot"}, call...)...)
	}
	cmd := practise("practice", "--plain", "--silent", "--drill", "shape-name", "--progress", "/home/progress.db")
	cmd.Stdin = strings.NewReader(session)
	out, err := cmd.CombinedOutput()
	if err != nil || !strings.Contains(string(out), "Which chord") && !strings.Contains(string(out), "chord") {
		t.Fatalf("%s, %v", out, err)
	}
	cmd = practise("progress", "check", "--progress", "/home/progress.db")
	if out, err := cmd.CombinedOutput(); err != nil || !strings.HasPrefix(string(out), "Sound: ") || strings.HasPrefix(string(out), "Sound: 0 answers") {
		t.Errorf("%s, %v", out, err)
	}
	if out, err := practise("--version").CombinedOutput(); err != nil || !strings.Contains(string(out), strings.TrimSuffix(strings.TrimPrefix(folder, "sparetone-"), "-linux-"+p.arch)) {
		t.Errorf("%s, %v", out, err)
	}
}

// copyLibraries copies what a program asks the system for into a root. It may ask for nothing but the C library.
func copyLibraries(t *testing.T, program, root string) {
	t.Helper()
	is, err := elf.Open(program)
	if err != nil {
		t.Fatal(err)
	}
	defer is.Close()
	asks, err := is.ImportedLibraries()
	if err != nil {
		t.Fatal(err)
	}
	for _, library := range asks {
		if !slices.Contains([]string{"libc.so.6", "libdl.so.2", "libpthread.so.0"}, library) {
			t.Errorf("the program asks for %s", library)
		}
	}
	said, err := exec.Command("ldd", program).Output()
	if err != nil {
		t.Fatal(err)
	}
	for word := range strings.FieldsSeq(string(said)) {
		if !strings.HasPrefix(word, "/") {
			continue
		}
		content, err := os.ReadFile(word)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.MkdirAll(filepath.Join(root, filepath.Dir(word)), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(root, word), content, 0o755); err != nil {
			t.Fatal(err)
		}
	}
}

// installs puts the package on, runs what it brought and takes it off.
func installs(t *testing.T, dist string, p platform) {
	if os.Getenv("CI") == "" || os.Getuid() != 0 {
		t.Skip("this changes the system: only where CI is set, as root")
	}
	path := theOne(t, dist, "sparetone_*_"+p.arch+".deb")
	if out, err := commandIn(dist, "dpkg", "--install", path); err != nil {
		t.Fatalf("%s, %v", out, err)
	}
	purge := func() (string, error) { return commandIn(dist, "dpkg", "--purge", "sparetone") }
	defer purge()
	if out, err := commandIn(dist, "/usr/bin/sparetone", "chord", "Cadd9"); err != nil || !strings.Contains(out, "Cadd9") {
		t.Errorf("%s, %v", out, err)
	}
	if out, err := commandIn(dist, "dpkg", "--verify", "sparetone"); err != nil || strings.TrimSpace(out) != "" {
		t.Errorf("%s, %v", out, err)
	}
	if out, err := commandIn(dist, "lintian", "--fail-on", "error", "--suppress-tags", "statically-linked-binary", path); err != nil {
		t.Errorf("lintian: %s, %v", out, err)
	}
	if out, err := purge(); err != nil {
		t.Errorf("%s, %v", out, err)
	}
	for _, gone := range []string{"/usr/bin/sparetone", "/usr/share/doc/sparetone", "/usr/share/man/man1/sparetone.1.gz"} {
		if _, err := os.Stat(gone); err == nil {
			t.Errorf("%s is still there", gone)
		}
	}
}
