// Package tui is the station: one router, a stack of screens, and the desk
// that takes what the hand does to the book.
//
// Run is the way in. The package declares the small interface it needs of a
// book and imports no store.
//
// Caveats: nothing here writes to disk; Book.Keep returns at once and its
// outcome comes back as a message, so a reading that is drawn is not yet a
// reading that is kept.
package tui
