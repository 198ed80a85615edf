package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"regexp"
	"strconv"
	"strings"
	"time"
)

// commit is what is released.
type commit struct {
	version string    // of a tag such as v1.2.3: 1.2.3; else 0.0.0, the day and the commit
	at      time.Time // when it was committed: the time of all files of the release
}

// released is a tag of a release, by Semantic Versioning 2.0.0, without build metadata.
var released = regexp.MustCompile(`^v(\d+\.\d+\.\d+(?:-[0-9A-Za-z.-]+)?)$`)

// commitOf returns the commit of the working tree. A tree that is not as it was committed is refused, unless it may be unclean.
func commitOf(ctx context.Context, unclean bool) (c commit, err error) {
	changed, err := run(ctx, nil, "git", "status", "--porcelain")
	if err != nil {
		return c, fmt.Errorf("a release is built from a git checkout: %w", err)
	}
	if changed != "" && !unclean {
		name, _, _ := strings.Cut(changed, "\n")
		return c, fmt.Errorf("not all is committed, such as %s", strings.TrimSpace(name))
	}
	said, err := run(ctx, nil, "git", "log", "-1", "--format=%ct %h", "--abbrev=12")
	if err != nil {
		return c, err
	}
	seconds, hash, _ := strings.Cut(strings.TrimSpace(said), " ")
	unix, err := strconv.ParseInt(seconds, 10, 64)
	if err != nil {
		return c, err
	}
	c.at = time.Unix(unix, 0).UTC()
	tags, err := run(ctx, nil, "git", "tag", "--points-at", "HEAD")
	c.version = versionOf(strings.Fields(tags), c.at, hash)
	return c, err
}

// versionOf returns the version of a commit by its tags.
func versionOf(tags []string, at time.Time, hash string) string {
	for _, tag := range tags {
		if m := released.FindStringSubmatch(tag); m != nil {
			return m[1]
		}
	}
	return "0.0.0-" + at.Format("20060102") + "." + hash
}

// run runs a command with additions to the environment and returns what it printed.
func run(ctx context.Context, env []string, name string, args ...string) (string, error) {
	cmd := exec.CommandContext(ctx, name, args...)
	cmd.Env = append(os.Environ(), env...)
	out, err := cmd.Output()
	if exit := (*exec.ExitError)(nil); errors.As(err, &exit) {
		return "", fmt.Errorf("%s: %w: %s", name, err, bytes.TrimSpace(exit.Stderr))
	}
	return string(out), err
}
