package storetest

import (
	"fmt"
	"time"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/record"
)

// Start is when the events of this package begin.
var Start = time.Date(2026, 3, 2, 8, 15, 0, 0, time.FixedZone("", 3600))

// Begin returns what a session of this uid begins with: details and layout.
func Begin(uid string) []record.Event {
	return []record.Event{
		{At: Start, By: "AB", Body: record.Details{UID: uid, Title: "Launch " + uid, Unit: length.In}},
		{At: Start, By: "AB", Body: record.Layout{Layout: plan.Default(plan.Inline, 4, false)}},
	}
}

// Reading returns the i-th reading of a session, i seconds after Start: 3.7503
// in and i ten-thousandths more, somewhere in four bores.
func Reading(i int) record.Event {
	number := fmt.Sprintf("3.%04d", 7503+i%2000)
	size, err := length.Parse(number, length.In)
	if err != nil {
		panic(err)
	}
	return record.Event{At: Start.Add(time.Duration(i) * time.Second), By: "AB", Body: record.Reading{
		Of: plan.Feature{Family: plan.Bore, At: 1 + i%4}, Level: "a", Dir: "across",
		Keyed: number, Via: record.ViaKeypad, Size: size, As: record.First,
	}}
}

// Note returns a remark, as the shop can have one.
func Note(text string) record.Event {
	return record.Event{At: Start, Body: record.Note{Text: text}}
}

// Is reports whether an event is the one that was read of stored bytes: Load leaves
// them out, and their hash stands for them.
func Is(s record.Sealed, line []byte) bool { return s.Head.Hash == record.SumOf(line) }

// Lines seals events from the first one on and returns their stored bytes.
func Lines(events ...record.Event) [][]byte {
	var head record.Head
	var lines [][]byte
	for _, e := range events {
		s, err := record.Seal(e, head)
		if err != nil {
			panic(err)
		}
		lines, head = append(lines, s.Bytes), s.Head
	}
	return lines
}
