package storetest

import "testing"

// Proof writes into the test's log what a fault came to, as a row of the table
// that .ci/proofs prints: what was done, how often, how many readings that were
// shown as kept were lost, and what the user saw of it.
func Proof(tb testing.TB, fault string, tries, lost int, saw string) {
	tb.Helper()
	tb.Logf("PROOF | %s | %d | %d | %s", fault, tries, lost, saw)
}

// Caught writes such a row for what is wrong on purpose, and was found out.
func Caught(tb testing.TB, fault string, tries int, saw string) {
	tb.Helper()
	tb.Logf("PROOF | %s | %d | caught | %s", fault, tries, saw)
}
