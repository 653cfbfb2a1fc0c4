package editor

// KeyGroup is a heading of the list of keys with what stands under it.
type KeyGroup struct {
	Name     string      `json:"name"`
	Commands []KeyedItem `json:"commands"`
}

// KeyedItem is one thing to do, with the keys that do it. What has no key of
// its own is done from the list: it has the command and its arguments.
type KeyedItem struct {
	Command string      `json:"command"`
	Title   string      `json:"title"`
	Keys    []KeyedWith `json:"keys"`
	Args    []Arg       `json:"args"`
}

// KeyedWith is a key press and the arguments that it gives.
type KeyedWith struct {
	Press string `json:"press"`
	Title string `json:"title"`
	Args  string `json:"args"` // JSON; "" for none
}

// KeyList is what the page's list of keys is made of.
func KeyList() []KeyGroup {
	var groups []KeyGroup
	for _, c := range Commands() {
		if len(groups) == 0 || groups[len(groups)-1].Name != c.Group {
			groups = append(groups, KeyGroup{Name: c.Group})
		}
		g := &groups[len(groups)-1]
		item := KeyedItem{Command: c.Name, Title: c.Title, Args: append([]Arg{}, c.Args...), Keys: []KeyedWith{}}
		for _, k := range c.Keys {
			title := k.Title
			if title == "" {
				title = c.Title
			}
			item.Keys = append(item.Keys, KeyedWith{k.Press, title, k.Args})
		}
		g.Commands = append(g.Commands, item)
	}
	return groups
}
