package store

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"golang.org/x/sys/unix"
)

// fuseNumber is the number that statfs gives every file system that a program serves
// (linux/magic.h).
const fuseNumber = 0x65735546

// farAway are the file systems served by a program whose files lie on other
// computers, by what the list of mounts calls them. The list is not whole: a name
// that is not here is taken for a disk of this computer.
var farAway = []string{
	"fuse.sshfs", "fuse.rclone", "fuse.s3fs", "fuse.goofys", "fuse.glusterfs", "fuse.ceph-fuse", "fuse.juicefs",
	"fuse.mfs", "fuse.lizardfs", "fuse.davfs2", "fuse.curlftpfs", "fuse.smbnetfs", "fuse.gvfsd-fuse",
}

// servedFrom returns the name of the file system of the folder, which a program
// serves, when its files lie on another computer; empty when not, or not known.
func servedFrom(dir string) (string, error) {
	var st unix.Stat_t
	if err := unix.Stat(dir, &st); err != nil {
		return "", err
	}
	mounts, err := os.Open("/proc/self/mountinfo")
	if err != nil {
		return "", err
	}
	defer func() { _ = mounts.Close() }()
	device := fmt.Sprintf("%d:%d", unix.Major(st.Dev), unix.Minor(st.Dev))
	name, err := mountedType(mounts, device)
	if !slices.Contains(farAway, name) {
		name = ""
	}
	return name, err
}

// mountedType returns the type of the file system on the device, as the list of
// mounts has it (proc_pid_mountinfo(5)): the device is the third field, the type
// the first after a lone "-".
func mountedType(mounts io.Reader, device string) (string, error) {
	lines := bufio.NewScanner(mounts)
	for lines.Scan() {
		fields := strings.Fields(lines.Text())
		end := slices.Index(fields, "-")
		if end > 2 && fields[2] == device && len(fields) > end+1 {
			return fields[end+1], nil
		}
	}
	return "", lines.Err()
}
