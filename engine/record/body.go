package record

// Is returns IsDetails.
func (Details) Is() Kind { return IsDetails }

// Is returns IsLayout.
func (Layout) Is() Kind { return IsLayout }

// Is returns IsPlan.
func (Plan) Is() Kind { return IsPlan }

// Is returns IsLimit.
func (Limit) Is() Kind { return IsLimit }

// Is returns IsRules.
func (Rules) Is() Kind { return IsRules }

// Is returns IsGiven.
func (Given) Is() Kind { return IsGiven }

// Is returns IsTable.
func (Table) Is() Kind { return IsTable }

// Is returns IsInstrument.
func (Instrument) Is() Kind { return IsInstrument }

// Is returns IsSetting.
func (Setting) Is() Kind { return IsSetting }

// Is returns IsSet.
func (Set) Is() Kind { return IsSet }

// Is returns IsZero.
func (Zero) Is() Kind { return IsZero }

// Is returns IsReading.
func (Reading) Is() Kind { return IsReading }

// Is returns IsLeftOut.
func (LeftOut) Is() Kind { return IsLeftOut }

// Is returns IsMoved.
func (Moved) Is() Kind { return IsMoved }

// Is returns IsWithdrawn.
func (Withdrawn) Is() Kind { return IsWithdrawn }

// Is returns IsWork.
func (Work) Is() Kind { return IsWork }

// Is returns IsFitted.
func (Fitted) Is() Kind { return IsFitted }

// Is returns IsIntended.
func (Intended) Is() Kind { return IsIntended }

// Is returns IsSteps.
func (Steps) Is() Kind { return IsSteps }

// Is returns IsDone.
func (Done) Is() Kind { return IsDone }

// Is returns IsStudy.
func (Study) Is() Kind { return IsStudy }

// Is returns IsNote.
func (Note) Is() Kind { return IsNote }

// Is returns IsState.
func (State) Is() Kind { return IsState }
