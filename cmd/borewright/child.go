package main

import (
	"context"
	"os"
	"os/exec"
	"runtime/debug"

	"borewright/store"
)

// verifyApart checks a database in a process of its own, which is ended with
// ctx.
func verifyApart(ctx context.Context, path string) (store.Report, error) {
	program, err := os.Executable()
	if err != nil {
		return store.Report{}, err
	}
	child := exec.CommandContext(ctx, program)
	child.Args = []string{os.Args[0], "--" + databaseOption, path, "verify-inside"}
	out, err := child.Output()
	return answerOf(ctx, out, err)
}

// limitMemory keeps this process below so many bytes: the collector works
// harder near them, and where the system can it ends the process beyond.
func limitMemory(bytes int64) {
	debug.SetMemoryLimit(bytes / 2)
	limitSystem(bytes)
}
