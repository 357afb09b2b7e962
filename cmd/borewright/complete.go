package main

import (
	"context"
	"fmt"
	"strings"

	"github.com/urfave/cli/v3"

	"borewright/store"
	"borewright/testdata"
	"borewright/tui/draw"
)

// wordsKey is the key of the command line's words in a context.
type wordsKey struct{}

// withWords returns a context that knows the words of the command line: the
// parser does not tell of an option that still lacks its value.
func withWords(ctx context.Context, words []string) context.Context {
	return context.WithValue(ctx, wordsKey{}, words)
}

// lastWord returns the word before the one that is being completed, or the
// beginning of an option that is itself being completed.
func lastWord(ctx context.Context) string {
	words, _ := ctx.Value(wordsKey{}).([]string)
	if len(words) < 2 {
		return ""
	}
	return words[len(words)-2] // the last word asks for the completion
}

// completesValue reports whether the word being completed is the value of one
// of the options.
func completesValue(ctx context.Context, options ...string) bool {
	last := lastWord(ctx)
	for _, o := range options {
		if last == o {
			return true
		}
	}
	return false
}

// completeFile completes options; where it offers nothing the shell offers
// files.
func completeFile(ctx context.Context, cmd *cli.Command) {
	if strings.HasPrefix(lastWord(ctx), "-") && lastWord(ctx) != standardInput {
		cli.DefaultCompleteWithFlags(ctx, cmd)
	}
}

// completeDemo completes options and the names of sessions.
func completeDemo(ctx context.Context, cmd *cli.Command) {
	if !completesValue(ctx, "--session") {
		cli.DefaultCompleteWithFlags(ctx, cmd)
		return
	}
	for _, name := range testdata.Names() {
		_, _ = fmt.Fprintln(cmd.Root().Writer, name) // a shell that has gone needs no words
	}
}

// completeSession completes options and, once, the uid of a session.
func completeSession(w World) cli.ShellCompleteFunc {
	return func(ctx context.Context, cmd *cli.Command) {
		switch {
		case completesValue(ctx, "-o", "--output"): // the shell offers files
		case strings.HasPrefix(lastWord(ctx), "-") && lastWord(ctx) != "--force":
			cli.DefaultCompleteWithFlags(ctx, cmd)
		case !cmd.Args().Present():
			offerSessions(cmd, w)
		}
	}
}

// offerSessions prints the sessions' uids with their titles. A database that is
// missing or busy offers none.
func offerSessions(cmd *cli.Command, w World) {
	path, err := database(cmd, w)
	if err != nil || !w.Exists(path) {
		return
	}
	book, err := w.Open(path, store.Options{})
	if err != nil {
		return
	}
	defer book.Close() //nolint:errcheck // nothing was kept
	hs, err := book.Headings(0)
	if err != nil {
		return
	}
	for _, h := range hs {
		_, _ = fmt.Fprintf(w.Out, "%s:%s\n", h.UID, draw.Clean(h.Title))
	}
}
