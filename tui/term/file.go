package term

import "os"

// File is an open file of the system: the terminal's input. It is named here
// so that the screens need not reach for the system themselves.
type File = os.File
