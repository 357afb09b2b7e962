package main

import (
	"errors"
	"io"
	"io/fs"
	"strconv"
	"strings"
	"time"

	"github.com/urfave/cli/v3"
	"go.bug.st/serial"

	"borewright/tui"
)

// silence is how long nothing comes until a port says so.
const silence = 300 * time.Millisecond

// usualBaud is the speed of a port of which none is said.
const usualBaud = 9600

// port is a serial port as the command line names it; the zero value is none.
type port struct {
	device string
	baud   int
}

// gaugeFlag is the option --gauge.
func gaugeFlag() cli.Flag {
	return &cli.StringFlag{
		Name: "gauge", Usage: "read a serial gauge at `DEVICE[,BAUD]`, " + strconv.Itoa(usualBaud) + " baud if not said", Local: true,
	}
}

// gaugePort returns the port of --gauge.
func gaugePort(cmd *cli.Command) (port, error) {
	for _, c := range cmd.Lineage() {
		if text := c.String("gauge"); text != "" {
			return parsePort(text)
		}
	}
	return port{}, nil
}

// The slowest and the fastest that a serial port is set to, in baud.
const slowest, fastest = 50, 4_000_000

func parsePort(text string) (port, error) {
	device, speed, said := strings.Cut(text, ",")
	device = strings.TrimSpace(device)
	if device == "" {
		return port{}, usagef("--gauge %q names no device; say it as /dev/ttyUSB0,9600 or COM3,9600", text)
	}
	if !said {
		return port{device, usualBaud}, nil
	}
	baud, err := strconv.Atoi(strings.TrimSpace(speed))
	if err != nil || baud < slowest || baud > fastest {
		return port{}, usagef("--gauge: %q is no speed in baud, such as 9600", speed)
	}
	return port{device, baud}, nil
}

// cable returns the port as the station reads it, or nil where there is none.
func (p port) cable(w World) *tui.Cable {
	if p.device == "" {
		return nil
	}
	return &tui.Cable{Name: p.device, ReadCloser: newLine(func() (io.ReadCloser, error) { return w.Port(p.device, p.baud) }, retry)}
}

// openPort opens a serial port of this computer. What it received before is
// dropped.
func openPort(device string, baud int) (io.ReadCloser, error) {
	p, err := serial.Open(device, &serial.Mode{BaudRate: baud, DataBits: 8, Parity: serial.NoParity, StopBits: serial.OneStopBit})
	if err != nil {
		return nil, portWords(err)
	}
	if err := errors.Join(p.SetReadTimeout(silence), p.ResetInputBuffer()); err != nil {
		return nil, errors.Join(portWords(err), p.Close())
	}
	return p, nil
}

// What keeps a serial port from being read.
var (
	errPortAbsent  = errors.New("it is not plugged in")
	errPortPulled  = errors.New("it was unplugged")
	errPortBusy    = errors.New("another program has it open")
	errPortRefused = errors.New("this user may not read it; on Linux the group dialout may")
	errPortNone    = errors.New("it is no serial port")
	errPortSpeed   = errors.New("it does not go at this speed")
)

// portErrors are our words for the library's.
var portErrors = map[serial.PortErrorCode]error{
	serial.PortBusy: errPortBusy, serial.PortNotFound: errPortAbsent, serial.PermissionDenied: errPortRefused,
	serial.InvalidSerialPort: errPortNone, serial.InvalidSpeed: errPortSpeed, serial.PortClosed: errPortPulled,
}

func portWords(err error) error {
	var known *serial.PortError
	if errors.As(err, &known) && portErrors[known.Code()] != nil {
		return portErrors[known.Code()]
	}
	if errors.Is(err, fs.ErrNotExist) {
		return errPortAbsent
	}
	return err
}
