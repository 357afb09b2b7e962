package plan

import (
	"encoding/json"
	"reflect"
	"testing"
)

// FuzzLayout: a layout that is accepted prints back the same, has no more of
// anything than it may, and finds each of its features by its name.
func FuzzLayout(f *testing.F) {
	for _, text := range []string{
		`{"form":"inline","cylinders":6}`, `{"form":"vee","cylinders":8,"shared":true,"lead":"right","labels":{"cylinders":["1","3","5","7","2","4","6","8"]}}`,
		`{"form":"flat","cylinders":4,"mains":5,"rod_journals":4,"rods_per_journal":1,"cam_bearings":3}`, `{"form":"inline","cylinders":-1}`,
		`{"form":"vee","cylinders":2147483647}`, `{"form":"inline","cylinders":2,"labels":{"banks":["\u202e","\u001b[2J"]}}`, `{"form":"inline","cylinders":1,"mains":-9}`,
	} {
		f.Add([]byte(text))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		var l Layout
		if json.Unmarshal(data, &l) != nil {
			return
		}
		l = l.Filled()
		if err := l.Validate(); err != nil {
			if err.Error() == "" {
				t.Fatalf("%s is refused without a word", data)
			}
			return
		}
		printed, err := json.Marshal(l)
		if err != nil {
			t.Fatal(err)
		}
		var again Layout
		if err := json.Unmarshal(printed, &again); err != nil || again.Validate() != nil {
			t.Fatalf("%s prints as %s: %v", data, printed, err)
		}
		if printedAgain, err := json.Marshal(again); err != nil || !reflect.DeepEqual(printed, printedAgain) {
			t.Fatalf("%s prints as %s and then as %s", data, printed, printedAgain)
		}
		if l.Cylinders > 16 || l.Mains > 32 || l.RodJournals > 16 || l.CamBearings > 32 {
			t.Fatalf("%s has too many of something", data)
		}
		for _, traits := range Families() {
			for at := 1; at <= min(traits.Count(l), 64); at++ {
				feature := Feature{Family: traits.Family, At: at}
				if len(traits.Parts) > 0 {
					feature.Part = traits.Parts[0]
				}
				if err := l.Has(feature); err != nil && !traits.Unread {
					t.Fatalf("%s: %v", data, err)
				}
				if back, ok := l.ByLabel(traits.Family, l.Label(feature)); !ok || back != feature {
					t.Fatalf("%s: %v, labelled %q, is found as %v", data, feature, l.Label(feature), back)
				}
			}
		}
		for _, s := range Schemes() {
			if n := l.Numbered(s); n.Validate() != nil {
				t.Fatalf("%s numbered by %+v: %v", data, s, n.Validate())
			}
		}
	})
}
