package main

import (
	"fmt"
	"os"
	"os/exec"
	"strings"
)

// tool is a program or a module that tests call, with its Debian package.
type tool struct {
	command string // a program in PATH; "" for a module of Debian's Python
	module  string
	debian  string
	use     string
}

// python is Debian's Python: another one in PATH has other modules.
const python = "/usr/bin/python3"

var tools = []tool{
	{command: "gcc", debian: "gcc libc6-dev", use: "the race detector"},
	{command: "node", debian: "nodejs", use: "running WebAssembly"},
	{command: "npm", debian: "npm", use: "what the page's tests need"},
	{command: "chromium", debian: "chromium", use: "the page's tests"},
	{command: python, debian: "python3", use: "the outside checks"},
	{module: "ezdxf", debian: "python3-ezdxf", use: "reading DXF"},
	{module: "shapely", debian: "python3-shapely", use: "areas and offsets"},
	{module: "numpy", debian: "python3-numpy", use: "the outside checks"},
	{module: "osgeo.gdal", debian: "python3-gdal", use: "outlines"},
	{module: "cv2", debian: "python3-opencv", use: "outlines"},
	{command: "rsvg-convert", debian: "librsvg2-bin", use: "drawing SVG"},
	{command: "qpdf", debian: "qpdf", use: "reading PDF"},
	{command: "pdftoppm", debian: "poppler-utils", use: "drawing PDF"},
}

// present says whether the tool answers.
func (t tool) present() bool {
	if t.command != "" {
		_, err := exec.LookPath(t.command)
		return err == nil
	}
	return exec.Command(python, "-c", "import "+t.module).Run() == nil
}

func (t tool) name() string {
	if t.command != "" {
		return t.command
	}
	return "python module " + t.module
}

func missingTools() []tool {
	var missing []tool
	for _, t := range tools {
		if !t.present() {
			missing = append(missing, t)
		}
	}
	return missing
}

// installTools installs what is missing where that can be done (root, apt-get),
// and is a failed test where something is missing after that.
func installTools(log func(string, ...any)) outcome {
	missing := missingTools()
	if len(missing) == 0 {
		return single(nil, "")
	}
	packages := packagesOf(missing)
	_, noApt := exec.LookPath("apt-get")
	if os.Geteuid() != 0 || noApt != nil {
		return single(errMissing(missing), "")
	}
	log("installing %s", strings.Join(packages, " "))
	if out, err := apt("update"); err != nil {
		log("apt-get update: %v\n%s", err, out)
	}
	install := append([]string{"install", "-y", "--no-install-recommends"}, packages...)
	out, err := apt(install...)
	if missing = missingTools(); len(missing) == 0 {
		return single(nil, "")
	}
	details := errMissing(missing).Error()
	if err != nil {
		details += "\napt-get install: " + err.Error() + "\n" + out
	}
	return single(errMissing(missing), details)
}

func apt(args ...string) (string, error) {
	cmd := exec.Command("apt-get", args...)
	cmd.Env = append(os.Environ(), "DEBIAN_FRONTEND=noninteractive")
	out, err := cmd.CombinedOutput()
	return string(out), err
}

// packagesOf lists the Debian packages of some tools, each once.
func packagesOf(ts []tool) []string {
	var names []string
	have := map[string]bool{}
	for _, t := range ts {
		for _, p := range strings.Fields(t.debian) {
			if !have[p] {
				have[p] = true
				names = append(names, p)
			}
		}
	}
	return names
}

func errMissing(ts []tool) error {
	var names []string
	for _, t := range ts {
		names = append(names, fmt.Sprintf("%s (%s)", t.name(), t.use))
	}
	return fmt.Errorf("missing: %s; as root on Debian: apt-get install %s",
		strings.Join(names, ", "), strings.Join(packagesOf(ts), " "))
}
