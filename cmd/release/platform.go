package main

import (
	"fmt"
	"strings"
)

// platform is what a program is built for.
type platform struct{ os, arch string }

func (p platform) String() string { return p.os + "/" + p.arch }

// platforms are those that are released.
var platforms = []platform{{"linux", "amd64"}, {"linux", "arm64"}, {"darwin", "amd64"}, {"darwin", "arm64"}, {"windows", "amd64"}, {"windows", "arm64"}}

// wanted reads names of platforms, with commas between; all of them if there are none.
func wanted(only string) (out []platform, err error) {
	if only == "" {
		return platforms, nil
	}
	for name := range strings.SplitSeq(only, ",") {
		found := false
		for _, p := range platforms {
			if p.String() == name {
				out, found = append(out, p), true
			}
		}
		if !found {
			return nil, fmt.Errorf("--only: %q is none of %v", name, platforms)
		}
	}
	return out, nil
}

// program is the package that is released.
const program = "./cmd/sparetone"

// environment is what a build depends on besides the source, at fixed values.
func environment(p platform) []string {
	return []string{"GOOS=" + p.os, "GOARCH=" + p.arch, "CGO_ENABLED=0", "GOFLAGS=-mod=readonly", "GOAMD64=v1", "GOARM64=v8.0", "GOEXPERIMENT=", "GOTOOLCHAIN=local", "GOWORK=off"}
}
