package export

import (
	"fmt"
	"path"
	"strings"
	"unicode/utf8"

	"sheetsprite/engine"
	"sheetsprite/engine/inspect"
)

// headed is a heading with a line under it.
func headed(text string) string {
	return text + "\n" + strings.Repeat("-", utf8.RuneCountInString(text)) + "\n"
}

// readme is README.txt: what the files are and what to mind before cutting.
func readme(j Job, files []spriteFiles, sheets []sheetFile, jigs []jigFiles) []byte {
	var b strings.Builder
	say := func(format string, values ...any) { fmt.Fprintf(&b, format+"\n", values...) }
	say(english.title+"\n", shown(j.Project.Name))
	b.WriteString(english.files + "\n" + headed(english.sprites))
	for i, s := range j.Plan.Sprites {
		sprite := j.Project.Sprites[s.Index]
		say("\n"+english.sprite, shown(sprite.Name), mmText(s.Layout.Size.X), mmText(s.Layout.Size.Y),
			english.counted(s.Parts(), english.parts), english.often(j.Project.CopiesOf(s.Index)))
		say("  "+english.in, strings.TrimSuffix(files[i].picture, "picture.png"))
		for k, l := range s.Layout.Layers {
			stock := s.Stocks[l.Stock]
			say("  "+english.layer, files[i].names[k], english.counted(len(l.Parts), english.parts), shown(stock.Name), mmText(stock.Thickness))
		}
		for _, text := range pinWords(s) {
			say("  %s", text)
		}
		for k, l := range s.Spacers {
			stock := s.Stocks[l.Stock]
			say("  "+english.spacer, path.Base(files[i].spacers[k]), english.counted(len(l.Parts), english.spacers), shown(stock.Name), mmText(stock.Thickness), l.Height)
		}
	}
	b.WriteString(readmeSheets(j, sheets))
	b.WriteString(readmeJigs(j, jigs))
	if len(j.Plan.Findings) > 0 {
		b.WriteString("\n" + headed(english.before))
		for _, f := range j.Plan.Findings {
			say("\n* %s", findingLine(f))
		}
	}
	say(strings.TrimSuffix(english.cutting, "\n"), mmText(j.Project.Settings.Tab))
	if j.Plan.Sheets != nil {
		b.WriteString(readmeLegend())
	}
	b.WriteString(english.building)
	b.WriteString(english.safety)
	return []byte(b.String())
}

// pinWords say where a sprite's pins go.
func pinWords(s engine.Sprite) []string {
	var out []string
	for _, pin := range s.Pins {
		w, _ := pin.Hole.Size()
		var through []string
		for _, i := range pin.Parts {
			through = append(through, s.Numbers[i])
		}
		out = append(out, fmt.Sprintf(english.pin, mmText(w), strings.Join(through, english.comma), s.Numbers[pin.Under],
			mmText(pin.Hole.Min.X+w/2), mmText(pin.Hole.Min.Y+w/2)))
	}
	return out
}

// findingLine is a finding with the sprite, unless it names it, and the numbers of
// the parts that it is about.
func findingLine(f inspect.Finding) string {
	text, parts := oneLine(f.Text), f.Parts()
	const most = 12
	more := ""
	if n := len(parts) - most; n > 1 {
		parts, more = parts[:most], fmt.Sprintf(english.andMore, n)
	}
	if len(parts) > 0 {
		text = fmt.Sprintf(english.at, text, strings.Join(parts, english.comma)+more)
	}
	if f.Sprite != "" && !strings.Contains(f.Text, f.Sprite) {
		text = fmt.Sprintf(english.about, shown(f.Sprite), text)
	}
	return text
}

// oneLine keeps a text from breaking out of its line.
func oneLine(s string) string { return strings.Join(strings.Fields(stripControls(s)), " ") }
