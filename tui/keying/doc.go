// Package keying is the grammar of the measuring loop: everything in it is done
// with one hand on a numeric keypad, and only * and / command.
//
// It is a pure machine. [Step] takes a State, one Token and a View of what the
// host knows at that moment, and returns the next State and what the host is to
// do. One table says what every key does in every situation; Step looks keys up
// in it, and [Keys] draws the footer from the same rows.
//
// Its rules:
//   - Refused means the state is as it was, and a reason is shown.
//   - Nothing is taken that was not shown before Enter, character by character.
//   - What was probably meant never becomes a reading by a key.
//   - Enter where nothing is keyed does nothing, ever.
//
// Caveats: a View must be fresh for every token, because the effects of one
// token (the next place, a question) change what the next one means. The bell
// of a reading that is taken and kept is the host's: only the store knows.
package keying
