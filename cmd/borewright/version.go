package main

import (
	"context"
	"fmt"
	"runtime"
	"runtime/debug"

	"github.com/urfave/cli/v3"
)

// versionFlag is the option --version of the program itself.
func versionFlag() cli.Flag {
	return &cli.BoolFlag{Name: "version", Usage: "print the version", HideDefault: true, Local: true}
}

// versionCommand is "borewright version".
func versionCommand(w World) *cli.Command {
	return &cli.Command{
		Name:  "version",
		Usage: "print the version and the Go it was built with",
		Action: func(_ context.Context, cmd *cli.Command) error {
			if _, err := operands(cmd); err != nil {
				return err
			}
			return printVersion(w)
		},
	}
}

func printVersion(w World) error {
	info, _ := debug.ReadBuildInfo()
	_, err := fmt.Fprintln(w.Out, versionText(info))
	return err
}

// versionText returns "borewright VERSION (GO)". A build from a working copy
// that carries no version is called devel; info may be nil.
func versionText(info *debug.BuildInfo) string {
	version, toolchain := "devel", runtime.Version()
	if info != nil {
		if v := info.Main.Version; v != "" && v != "(devel)" {
			version = v
		}
		if info.GoVersion != "" {
			toolchain = info.GoVersion
		}
	}
	return fmt.Sprintf("borewright %s (%s)", version, toolchain)
}
