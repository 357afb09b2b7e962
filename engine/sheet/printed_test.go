package sheet

import (
	"context"
	"errors"
	"maps"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"
)

// reader returns the command of a Debian package that a test looks with, or
// skips, saying so.
func reader(t *testing.T, command, packaged string) string {
	t.Helper()
	path, err := exec.LookPath(command)
	if errors.Is(err, exec.ErrNotFound) {
		t.Skipf("this is not looked at: %s (Debian package %s) is not here", command, packaged)
	}
	return path
}

// textOf returns the text of a document as pdftotext reads it.
func textOf(t *testing.T, file string) string {
	t.Helper()
	text, err := exec.CommandContext(t.Context(), reader(t, "pdftotext", "poppler-utils"), "-layout", file, "-").Output()
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// printed prints a page by a browser and returns the document's file.
func printed(t *testing.T, page []byte) string {
	t.Helper()
	browser := reader(t, "chromium", "chromium")
	dir := t.TempDir()
	html, pdf := filepath.Join(dir, "sheet.html"), filepath.Join(dir, "sheet.pdf")
	if err := os.WriteFile(html, page, 0o600); err != nil {
		t.Fatal(err)
	}
	ctx, stop := context.WithTimeout(t.Context(), 2*time.Minute)
	defer stop()
	out, err := exec.CommandContext(ctx, browser, "--headless", "--no-sandbox", "--disable-gpu", "--disable-dev-shm-usage",
		"--user-data-dir="+filepath.Join(dir, "profile"), "--no-pdf-header-footer", "--print-to-pdf="+pdf, "file://"+html).CombinedOutput()
	if err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	return pdf
}

// What a browser prints of the page holds every number that the page shows, as
// often: nothing is cut off, hidden or broken in two.
func TestNumbersOfThePrintedPage(t *testing.T) {
	t.Parallel()
	reader(t, "pdftotext", "poppler-utils")
	page := pageOf(t, built(t, session(t, "launch-complete", 0), Both))
	text := textOf(t, printed(t, page))
	got, want := numbersIn(text), numbersIn(shownText(page))
	if len(want) < 6 || !maps.Equal(got, want) {
		t.Errorf("what is printed and the page differ: %s", differing(got, want))
	}
	for _, sign := range []string{"⌀", "−"} {
		if !strings.Contains(text, sign) {
			t.Errorf("%s is not printed", sign)
		}
	}
}
