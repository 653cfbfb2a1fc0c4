package main

import (
	"slices"
	"strconv"
	"strings"

	"sheetsprite/engine/project"
)

// chosen reads --only: sprites by their names, each with its copies where it
// says so.
func (s *settings) chosen(p *project.Project) ([]project.Chosen, error) {
	var out []project.Chosen
	for text := range strings.SplitSeq(s.only.text, ",") {
		name, copies, counted := strings.Cut(strings.TrimSpace(text), "=")
		c := project.Chosen{Sprite: name}
		if counted {
			n, err := strconv.Atoi(copies)
			if err != nil || n < 1 || n > project.MaxCopies {
				return nil, badUsage("--only %s: %s copies can't be: give 1 to %d, as in --only gull=2", quote(s.only.text), quote(copies), project.MaxCopies)
			}
			c.Copies = n
		}
		i := slices.IndexFunc(p.Sprites, func(sp project.Sprite) bool { return sp.Name == name })
		if i < 0 {
			return nil, &project.InputError{What: "--only: there is no sprite " + quote(name) + ": name them as the files are, without their endings, parted by commas"}
		}
		if c.Copies == 0 {
			c.Copies = max(1, p.Sprites[i].Copies)
		}
		out = append(out, c)
	}
	return out, nil
}

// parts reads --again: numbers of parts.
func (s *settings) parts() ([]string, error) {
	var out []string
	for text := range strings.SplitSeq(s.again.text, ",") {
		number := strings.ToUpper(strings.TrimSpace(text))
		if number == "" {
			return nil, badUsage("--again %s: give numbers of parts parted by commas, as in --again A2-3,B1-1", quote(s.again.text))
		}
		out = append(out, number)
	}
	return out, nil
}
