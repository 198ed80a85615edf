package sparetone_test

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

var (
	// calledTest is a command that runs tests, up to the end of its line or of its code.
	calledTest = regexp.MustCompile("go test[^\n`]*")
	// calledName is what such a command says of which tests, benchmarks or fuzz targets it runs.
	calledName = regexp.MustCompile(`-(run|bench|fuzz)[ =]('[^']*'|\S+)`)
	// testDeclared is a test, a benchmark or a fuzz target where it is declared.
	testDeclared = regexp.MustCompile(`(?m)^func ((?:Test|Benchmark|Fuzz)\w+)\(`)
)

// testsByRoom returns the names of the tests, benchmarks and fuzz targets of each room, by its path such as "./synth/hear".
func testsByRoom(t *testing.T) map[string][]string {
	rooms := map[string][]string{}
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, "_test.go") {
			return err
		}
		text, err := os.ReadFile(path)
		room := "./" + filepath.ToSlash(filepath.Dir(path))
		for _, m := range testDeclared.FindAllSubmatch(text, -1) {
			rooms[room] = append(rooms[room], string(m[1]))
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return rooms
}

// notFound returns the tests that a command names and that are in none of its rooms; where it names no room, in no room at all.
// "../memory" is any room of that name, for whose heading it stands under is not read.
func notFound(command string, rooms map[string][]string) []string {
	command = strings.ReplaceAll(command, `\|`, "|") // as a table writes it
	var inside []string
	named := false
	for _, word := range strings.Fields(calledName.ReplaceAllString(command, "")) {
		word = strings.TrimRight(word, ".,;)")
		_, beside, up := strings.Cut(word, "..")
		if !up && !strings.HasPrefix(word, "./") {
			continue
		}
		named = true
		for room, tests := range rooms {
			if room == word || up && strings.HasSuffix(room, strings.ReplaceAll(beside, "/..", "")) {
				inside = append(inside, tests...)
			}
		}
	}
	if !named {
		for _, tests := range rooms {
			inside = append(inside, tests...)
		}
	}
	var missing []string
	for _, m := range calledName.FindAllStringSubmatch(command, -1) {
		pattern, _, _ := strings.Cut(strings.Trim(m[2], `'",;`), "/")
		if pattern == "^$" || pattern == "xxx" { // runs nothing of its kind
			continue
		}
		found, err := regexp.Compile(pattern)
		kind := map[string]string{"run": "Test", "bench": "Benchmark", "fuzz": "Fuzz"}[m[1]]
		if err != nil || !slices.ContainsFunc(inside, func(name string) bool {
			return strings.HasPrefix(name, kind) && found.MatchString(name)
		}) {
			missing = append(missing, m[0])
		}
	}
	return missing
}

// Whoever measures a figure again copies the command that stands beside it.
func TestCommandsThatAreNamedRunSomething(t *testing.T) {
	rooms, commands := testsByRoom(t), 0
	err := filepath.WalkDir(".", func(path string, entry fs.DirEntry, err error) error {
		if err != nil || entry.IsDir() || !strings.HasSuffix(path, ".md") && !strings.HasSuffix(path, ".go") || path == "commands_test.go" {
			return err
		}
		text, err := os.ReadFile(path)
		for _, command := range calledTest.FindAllString(string(text), -1) {
			commands++
			for _, name := range notFound(command, rooms) {
				t.Errorf("%s: %s: %s runs nothing", path, command, name)
			}
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	if commands < 50 {
		t.Errorf("only %d commands were found", commands)
	}
}

func TestACommandThatRunsNothingIsFound(t *testing.T) {
	rooms := map[string][]string{"./a": {"TestOne", "BenchmarkTwo"}, "./b/c": {"TestThree", "FuzzFour"}}
	for command, missing := range map[string]string{
		"go test -run One ./a":                            "",
		"go test -run One/deep ./a":                       "",
		"go test -run One ./b/c":                          "-run One",
		"go test -run One":                                "",
		"go test -run Two ./a":                            "-run Two", // a benchmark is no test
		"go test -run '^$' -bench Two ./a":                "",
		"go test -run xxx -fuzz FuzzFour -fuzztime 1m":    "",
		"go test -run xxx -fuzz FuzzFive -fuzztime 1m":    "-fuzz FuzzFive",
		`go test -run 'None\|Three' -v ./b/c, from above`: "",
		"go test -run Three ../c":                         "",
		"go test -run Three ../d":                         "-run Three",
		"go test ./...":                                   "",
	} {
		if got := strings.Join(notFound(command, rooms), " "); got != missing {
			t.Errorf("%s: %q is missing, want %q", command, got, missing)
		}
	}
}
