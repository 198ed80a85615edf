package sparetone_test

import (
	"os"
	"os/exec"
	"path"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"testing"
)

// modulesOf lists the modules that go.mod requires by themselves and that some packages, with or without their tests, are
// built of.
func modulesOf(t *testing.T, args ...string) []string {
	t.Helper()
	const direct = "{{with .Module}}{{if not (or .Main .Indirect)}}{{.Path}}{{end}}{{end}}"
	out, err := exec.Command("go", append([]string{"list", "-deps", "-f", direct}, args...)...).Output()
	if err != nil {
		t.Fatal(err)
	}
	modules := strings.Fields(string(out))
	slices.Sort(modules)
	return slices.Compact(modules)
}

var version = regexp.MustCompile(`/v[0-9]+$`)

// nameOf is the last part of a module's path or of a link to it, without its version.
func nameOf(at string) string { return path.Base(version.ReplaceAllString(at, "")) }

// The README lists each library once: what the program is built of under what it is for, and the rest under tests.
func TestReadmeListsLibraries(t *testing.T) {
	if runtime.GOOS != "linux" {
		t.Skip("one of the libraries is of Linux alone")
	}
	readme, err := os.ReadFile("README.md")
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(readme), "## Built with")
	table, _, _ = strings.Cut(table, "\n## ")
	link := regexp.MustCompile(`\]\((https://[^)]*)\)`)
	ships, tests := map[string]bool{}, map[string]bool{}
	for _, row := range strings.Split(table, "\n") {
		if !strings.HasPrefix(row, "|") {
			continue
		}
		for _, m := range link.FindAllStringSubmatch(row, -1) {
			name := nameOf(m[1])
			if ships[name] || tests[name] {
				t.Errorf("%s is listed twice", name)
			}
			if strings.HasPrefix(row, "| tests") {
				tests[name] = true
			} else {
				ships[name] = true
			}
		}
	}
	built := modulesOf(t, "./cmd/sparetone")
	for _, module := range modulesOf(t, "-test", "./...") {
		name, shipped := nameOf(module), slices.Contains(built, module)
		switch {
		case shipped && !ships[name]:
			t.Errorf("the program is built of %s, and the README does not list it so", module)
		case !shipped && !tests[name]:
			t.Errorf("%s is for tests alone, and the README does not list it so", module)
		}
		delete(ships, name)
		delete(tests, name)
	}
	for name := range ships {
		t.Errorf("the README lists %s, of which the program is not built", name)
	}
	for name := range tests {
		t.Errorf("the README lists %s for tests, and none is built of it", name)
	}
}
