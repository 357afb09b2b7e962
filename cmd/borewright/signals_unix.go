//go:build !windows

package main

import (
	"os"
	"syscall"
)

// endings are the signals that end a screen in good order: the window was
// closed, somebody asked for it, the system shuts down.
var endings = []os.Signal{syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM}
