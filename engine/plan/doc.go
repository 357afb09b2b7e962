// Package plan names what is measured: layouts of engines, the features they
// have, the places where readings are taken and the order they are taken in.
//
// Features are named by position, never by label: positions count from the
// front, left bank first. Labels are a map over positions (Layout.Labels), so
// relabelling never moves a reading.
//
// Caveats: a direction is an angle modulo 180°, 0° along the crank axis for
// bores and in the parting plane for bearings; a level's id is never used
// again for another depth.
package plan
