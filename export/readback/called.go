package readback

import "fmt"

// called holds the names of parts against one another: the ids in the layers'
// drawings are the only names that there are, each of one part of its sprite;
// what the manifest lists to be cut, to rest on, to be lifted or to mind before
// cutting is called by them. It is asked once the layers are read.
func called(m manifest, sprites []*sprite) error {
	where := map[string]map[string]int{} // sprite, then id, to the layer's number; only asked
	for _, s := range sprites {
		ids := map[string]int{}
		for _, layers := range [][]layer{s.layers, s.spacers} {
			for _, l := range layers {
				for _, p := range l.parts {
					if ids[p.id] > 0 {
						return s.fault("two parts are called %s", quote(p.id))
					}
					ids[p.id] = l.number
				}
			}
		}
		where[s.name] = ids
	}
	for _, p := range m.Parts {
		for _, name := range []string{p.RestsOn, p.Lifts} {
			if name != "" && where[p.Sprite][name] == 0 {
				return fmt.Errorf("part %s of sprite %s has to do with %s, which isn't in its files", p.Number, quote(p.Sprite), quote(name))
			}
		}
	}
	for _, f := range m.Findings {
		for _, p := range append(f.Places, f.manifestPlace) {
			if p.Part != "" && (p.Layer == 0 || where[p.Sprite][p.Part] != p.Layer) {
				return fmt.Errorf("a finding (%s) tells of part %s in layer %d of sprite %s, which isn't in its files", f.Code, quote(p.Part), p.Layer, quote(p.Sprite))
			}
		}
	}
	return nil
}
