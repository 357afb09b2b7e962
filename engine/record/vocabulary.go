package record

import "fmt"

// Vocabulary is the number of the kinds and fields known here. A new kind or
// field raises it; old bytes are lifted when read and never rewritten.
const Vocabulary = 2

// vocabularyOf returns the first vocabulary that has everything a body holds. An
// event is sealed with that number, so that an older program reads what it can
// and refuses what it would lose.
func vocabularyOf(b Body) int {
	switch b := b.(type) {
	case Rules:
		if b.DriftSpread || b.StaleWarm != "" {
			return 2
		}
	case Instrument:
		if !b.Proved.IsZero() {
			return 2
		}
	}
	return 1
}

// validVocabulary refuses a number that this program does not know, or that the
// event holds more than.
func (e Event) validVocabulary() error {
	if e.V < 1 {
		return &FieldError{Path: "v", Reason: fmt.Sprintf("vocabularies are numbered from 1, not %d", e.V)}
	}
	if err := knownVocabulary(e.V); err != nil {
		return err
	}
	if least := vocabularyOf(e.Body); e.V < least {
		return &FieldError{Path: "v", Reason: fmt.Sprintf("this event holds what came with vocabulary %d, not %d", least, e.V)}
	}
	return nil
}
