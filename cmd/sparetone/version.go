package main

import "runtime/debug"

// released is the version of a release, set by the linker; "" in all other builds.
var released string

// version is the version of the release, else the module's as the build knows it.
func version() string {
	if released != "" {
		return released
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		return info.Main.Version
	}
	return "unknown"
}
