package main

import (
	"runtime"
	"runtime/debug"
	"testing"
)

func TestVersionText(t *testing.T) {
	t.Parallel()
	build := func(version, toolchain string) *debug.BuildInfo {
		return &debug.BuildInfo{GoVersion: toolchain, Main: debug.Module{Version: version}}
	}
	for name, c := range map[string]struct {
		info *debug.BuildInfo
		want string
	}{
		"tagged":       {build("v1.2.3", "go1.26.1"), "borewright v1.2.3 (go1.26.1)"},
		"working copy": {build("(devel)", "go1.26.1"), "borewright devel (go1.26.1)"},
		"bare":         {build("", ""), "borewright devel (" + runtime.Version() + ")"},
		"unknown":      {nil, "borewright devel (" + runtime.Version() + ")"},
	} {
		if got := versionText(c.info); got != c.want {
			t.Errorf("%s: %q, want %q", name, got, c.want)
		}
	}
}
