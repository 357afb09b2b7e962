// Package term is the station's border with the terminal: key messages into
// tokens, the locked output that can ring the bell, the modes that are put
// right before and after the screen, and the choice of colours.
//
// Importing it also stops Bubble Tea from asking the terminal for its
// background at the start (package probe). Nothing in it asks the terminal
// anything.
//
// Caveats. Keys that Bubble Tea v1 swallows never reach the decoder: the
// keypad's 5 with NumLock off where it sends ESC [ E, and the long key
// reports of newer protocols. PuTTY's application keypad sends its operators
// as f1 to f4, which are left alone. A lone Escape may come half a second
// late under a terminal multiplexer, so no work should need it.
package term

import _ "borewright/tui/term/probe" // before Bubble Tea starts
