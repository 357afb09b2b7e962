package record

import "testing"

func benchmarkDecode(b *testing.B, decode func([]byte) (Event, error)) {
	b.Helper()
	s, err := Seal(Event{At: at, By: "rk", Body: Reading{
		Of: featureOf("bore/2"), Level: "b", Dir: "across", Set: "s1", Keyed: "+3", Via: ViaKeypad,
		Dev: written("0.0015 in"), As: First,
	}}, Head{N: 411, Hash: anyHash})
	if err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		if _, err := decode(s.Bytes); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkDecode(b *testing.B)       { benchmarkDecode(b, Decode) }
func BenchmarkDecodeStrict(b *testing.B) { benchmarkDecode(b, DecodeStrict) }
