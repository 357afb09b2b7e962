package store

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// mountsOfAShop is a list of mounts, as proc_pid_mountinfo(5) describes it.
const mountsOfAShop = `22 1 254:1 / / rw,relatime shared:1 - ext4 /dev/vda1 rw
45 22 0:41 / /home/ek/far rw,nosuid,nodev,relatime shared:99 - fuse.sshfs ek@server:/data rw,user_id=1000
46 22 0:42 / /mnt/stick rw,relatime shared:7 master:3 - fuseblk /dev/sdb1 rw
47 22 0:43 / /mnt/cut rw,relatime -
48 22 0:44 / /mnt/odd\040name rw - fuse.bindfs /srv rw
`

func TestMountedType(t *testing.T) {
	for device, want := range map[string]string{
		"254:1": "ext4", "0:41": "fuse.sshfs", "0:42": "fuseblk", "0:43": "", "0:44": "fuse.bindfs", "9:9": "",
	} {
		if got, err := mountedType(strings.NewReader(mountsOfAShop), device); got != want || err != nil {
			t.Errorf("%s is %q, %v, want %q", device, got, err, want)
		}
	}
	if !slices.Contains(farAway, "fuse.sshfs") || slices.Contains(farAway, "fuseblk") || slices.Contains(farAway, "fuse.bindfs") {
		t.Errorf("far away are %v", farAway)
	}
}

// TestServedFrom: a folder of this computer is found in its list of mounts, and is
// not far away.
func TestServedFrom(t *testing.T) {
	if _, err := os.Stat("/proc/self/mountinfo"); err != nil {
		t.Skip(err)
	}
	if name, err := servedFrom(t.TempDir()); name != "" || err != nil {
		t.Errorf("it is %q, %v", name, err)
	}
	if _, err := servedFrom("/no/such/folder"); err == nil {
		t.Error("a folder that is not there")
	}
}
