package main

import (
	"os"
	"syscall"
)

// endings are the signals that end a screen in good order. The system tells of
// a closed window, a log-off and a shutdown by SIGTERM.
var endings = []os.Signal{os.Interrupt, syscall.SIGTERM}

// onContinue does nothing: there is no such signal on Windows.
func onContinue(func(), func(error)) (stop func()) { return func() {} }
