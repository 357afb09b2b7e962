//go:build !windows

package main

import (
	"os"
	"os/signal"
	"syscall"

	"borewright/tui/term"
)

// endings are the signals that end a screen in good order: the window was
// closed, somebody asked for it, the system shuts down.
var endings = []os.Signal{syscall.SIGHUP, syscall.SIGINT, syscall.SIGQUIT, syscall.SIGTERM}

// onContinue calls again whenever the program goes on after it was stopped,
// until the function it returns is called. A panic is given to report.
func onContinue(again func(), report func(error)) (stop func()) {
	heard := make(chan os.Signal, 1)
	signal.Notify(heard, syscall.SIGCONT)
	done := make(chan struct{})
	term.Go(func() {
		for {
			select {
			case <-heard:
				again()
			case <-done:
				return
			}
		}
	}, report)
	return func() {
		signal.Stop(heard)
		close(done)
	}
}
