package setup_test

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"borewright/engine/length"
	"borewright/engine/plan"
	"borewright/engine/setup"
)

func TestFormsKeepTheNearestCount(t *testing.T) {
	d := setup.New(length.In, plan.Default(plan.Inline, 5, false))
	d.SetForm(plan.Vee)
	if d.Layout.Cylinders != 4 && d.Layout.Cylinders != 6 {
		t.Errorf("a vee of five has %d cylinders", d.Layout.Cylinders)
	}
	d.SetCylinders(16)
	d.SetShared(true)
	if want := plan.Default(plan.Vee, 16, true); !reflect.DeepEqual(d.Layout, want) {
		t.Errorf("layout is %+v, want %+v", d.Layout, want)
	}
	d.SetForm(plan.Inline)
	if want := plan.Default(plan.Inline, 8, false); !reflect.DeepEqual(d.Layout, want) {
		t.Errorf("layout is %+v, want %+v", d.Layout, want)
	}
	for form, want := range map[string][]int{
		plan.Inline: {1, 2, 3, 4, 5, 6, 7, 8}, plan.Vee: {2, 4, 6, 8, 10, 12, 14, 16}, plan.Flat: {2, 4, 6, 8, 10, 12},
	} {
		if got := setup.CylinderCounts(form); !reflect.DeepEqual(got, want) {
			t.Errorf("%s has %v cylinders, want %v", form, got, want)
		}
	}
}

func TestLabelsStayWithTheirCount(t *testing.T) {
	d := setup.New(length.In, plan.Default(plan.Inline, 4, false))
	d.Layout.Labels = map[string][]string{"cylinders": {"w", "x", "y", "z"}, "mains": {"a", "b", "c", "d", "e"}}
	d.SetMains(3)
	if len(d.Layout.Labels) != 1 || d.Layout.Labels["cylinders"][0] != "w" {
		t.Errorf("labels are %v", d.Layout.Labels)
	}
	d.SetCylinders(6)
	if d.Layout.Labels != nil {
		t.Errorf("labels are %v", d.Layout.Labels)
	}
}

func TestSharedRodJournalsHaveHalves(t *testing.T) {
	d := setup.New(length.MM, plan.Default(plan.Vee, 8, true))
	d.SetMeasured(plan.RodJournal, true)
	halves := func() string {
		var out []string
		for _, l := range d.Of(plan.RodJournal).Levels {
			out = append(out, l.Half)
		}
		return strings.Join(out, ",")
	}
	for n, want := range map[int]string{1: "", 2: "front,rear", 3: "front,,rear", 4: "front,front,rear,rear"} {
		d.SetLevels(plan.RodJournal, n)
		if got := halves(); got != want {
			t.Errorf("%d levels are on the halves %q, want %q", n, got, want)
		}
	}
	d.SetLevels(plan.RodJournal, 2)
	d.SetLead(plan.RightBank)
	d.SetShared(false)
	if halves() != "," || d.Layout.Lead != plan.RightBank {
		t.Errorf("split journals have halves %q, lead %q", halves(), d.Layout.Lead)
	}
	d.SetForm(plan.Inline)
	if d.Layout.Lead != "" {
		t.Errorf("an inline engine leads with its %s bank", d.Layout.Lead)
	}
}

func TestNumberingFollowsTheLayout(t *testing.T) {
	scheme := func(id string) plan.Scheme {
		i := slices.IndexFunc(plan.Schemes(), func(s plan.Scheme) bool { return s.ID == id })
		return plan.Schemes()[i]
	}
	d := setup.New(length.In, plan.Default(plan.Vee, 4, true))
	labels := func() string { return strings.Join(d.Layout.Labels["cylinders"], " ") }
	d.SetNumbering(scheme("alternating"))
	if got := labels(); got != "1 3 2 4" {
		t.Errorf("alternating, four cylinders are %s", got)
	}
	d.SetCylinders(6)
	if got := labels(); got != "1 3 5 2 4 6" {
		t.Errorf("alternating, six cylinders are %s", got)
	}
	d.SetForm(plan.Inline)
	if d.Layout.Labels != nil {
		t.Errorf("in line they are %s", labels())
	}
	d.SetForm(plan.Vee)
	d.SetLead(plan.RightBank)
	d.SetNumbering(scheme("SAE J824 sequence"))
	if got, ok := d.Layout.Numbering(); !ok || got.ID != "SAE J824 sequence" || labels() != "2 4 6 1 3 5" {
		t.Errorf("with the right bank in front they are %s", labels())
	}
	d.SetLead(plan.LeftBank)
	if labels() != "1 3 5 2 4 6" {
		t.Errorf("with the left bank in front they are %s", labels())
	}
	d.SetNumbering(scheme("sequence"))
	if d.Layout.Labels != nil {
		t.Errorf("in sequence they are %s", labels())
	}
}
