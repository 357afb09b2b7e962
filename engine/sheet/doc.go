// Package sheet makes the build sheet, the record that leaves the shop.
//
//	session, assessment → Build → Sheet → HTML, PDF
//	session             → ReadingsCSV, ResultsCSV → ReadCSV
//
// A [Sheet] is a plain value of sections, tables and pictures; what writes it
// knows nothing of engines, so that every form says the same. It holds no time
// but those of its events: the same events give the same bytes for ever.
//
// Caveat: the sheet advises, it does not certify; [engine.Advice] is on it.
package sheet
