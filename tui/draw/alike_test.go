package draw

import "testing"

func TestAlike(t *testing.T) {
	for _, tt := range []struct {
		a, b string
		want Head
	}{
		{"", "bore", Head{}},
		{"bore", "piston", Head{}},
		{"bore 3", "bore 3, top", Head{5, 5, ""}},
		{"bore 3\u0301", "bore 3", Head{5, 5, ""}},
		{"│ bore", "│ board", Head{5, 3, ""}},
		{"é bore", "é board", Head{}}, // it may be wider than it should
		{"a\x1b[1;31mbc\x1b[0m", "a\x1b[1;31mbd\x1b[0m", Head{8, 1, "\x1b[1;31m"}},
		{"a\x1b[31mb\x1b[0mcd", "a\x1b[31mb\x1b[0mce", Head{11, 2, ""}},
		{"a\x1b[31mb", "a\x1b[32mb", Head{}},
		{"a\x1b[1m\x1b[31mbcd", "a\x1b[1m\x1b[31mbce", Head{11, 2, "\x1b[1m\x1b[31m"}},
		{"ab\x1b[2Jc", "ab\x1b[2Jd", Head{1, 1, ""}},
	} {
		if got := Alike(tt.a, tt.b); got != tt.want {
			t.Errorf("%q and %q begin with %+v, want %+v", tt.a, tt.b, got, tt.want)
		}
	}
}
