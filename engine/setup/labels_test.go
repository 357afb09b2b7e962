package setup_test

import (
	"reflect"
	"strings"
	"testing"

	"borewright/engine/setup"
)

func labelProblems(d setup.Draft) string {
	var out []string
	for _, p := range d.Check() {
		if strings.HasPrefix(p.Field, "layout") {
			out = append(out, p.Field+": "+p.Text)
		}
	}
	return strings.Join(out, "\n")
}

func TestPositionsAreLabelledFreely(t *testing.T) {
	d := setup.Presets()[0].Draft()
	before := d.Layout
	d.SetLabel(setup.Cylinders, 1, " A ")
	d.SetLabel(setup.Mains, 7, "thrust")
	d.SetLabel(setup.Mains, 8, "none")
	if got := strings.Join(d.Labels(setup.Cylinders), " "); got != "A 2 3 4 5 6" {
		t.Errorf("cylinders are %s", got)
	}
	if got := strings.Join(d.Labels(setup.Mains), " "); got != "1 2 3 4 5 6 thrust" {
		t.Errorf("mains are %s", got)
	}
	if before.Labels != nil || labelProblems(d) != "" {
		t.Errorf("the layout before is %v; wrong is %s", before.Labels, labelProblems(d))
	}
	d.SetLabel(setup.Cylinders, 1, "")
	if _, have := d.Layout.Labels[setup.Cylinders]; have {
		t.Errorf("counting up they are labelled %v", d.Layout.Labels)
	}
	d.CountUp(setup.Mains)
	if !reflect.DeepEqual(d.Layout, before) {
		t.Errorf("without labels the layout is %+v", d.Layout)
	}
	if got := d.Labels("lifters"); got != nil {
		t.Errorf("lifters are %v", got)
	}
}

func TestBadLabelsAreFoundOneByOne(t *testing.T) {
	d := setup.Presets()[0].Draft()
	d.SetLabel(setup.Cylinders, 3, "1")
	d.SetLabel(setup.Cylinders, 5, "far too long")
	d.SetLabel(setup.Mains, 2, "7")
	want := `layout.labels.cylinders.3: cylinder 3 from the front is labelled "1", and so is number 1
layout.labels.cylinders.5: the label "far too long" of cylinder 5 has more than 8 characters
layout.labels.mains.7: main 7 from the front is labelled "7", and so is number 2`
	if got := labelProblems(d); got != want {
		t.Errorf("wrong is\n%s\nwant\n%s", got, want)
	}
	d.SetLabel(setup.Cylinders, 1, "3")
	d.SetLabel(setup.Cylinders, 5, "five")
	d.SetLabel(setup.Mains, 7, "2")
	if got := labelProblems(d); got != "" {
		t.Errorf("exchanged, wrong is %s", got)
	}
}
