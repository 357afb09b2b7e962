// Command borewright is a measuring station for the engine builder's bench: it
// takes readings of bores, journals and bearings as they are keyed, works out
// size, form and running clearance, and keeps them.
//
// It opens no network connection. A command is a function over its arguments
// and a [World]; only this file and world.go reach for the process's own
// streams, clock and environment.
package main

import "os"

func main() {
	os.Exit(run(os.Args, processWorld()))
}
