package fit

import "borewright/engine/length"

// Stretch returns by how much a fastener is longer tight than free.
func Stretch(free, tight length.Exact) length.Exact { return tight.Sub(free) }

// Torque is a torque in millionths of a newton metre. The zero value is none.
type Torque int64

// The units of torque. A pound-force foot is 0.3048 m × 4.4482216152605 N
// (NIST SP 811 (2008) App. B), rounded to a millionth of a newton metre; a
// pound-force inch is a twelfth of it.
const (
	NewtonMetre Torque = 1_000_000
	PoundFoot   Torque = 1_355_818
	PoundInch   Torque = 112_985
)

// Within reports whether a torque keeps to its limits, exactly on one too; a
// limit of zero is none.
func (t Torque) Within(low, high Torque) bool {
	return (low == 0 || t >= low) && (high == 0 || t <= high)
}
