package editor

import (
	"errors"
	"fmt"
	"math"
)

type turnReliefArgs struct {
	Turn float64 `json:"turn" about:"degrees about the upright; 0 is straight"`
	Tilt float64 `json:"tilt" about:"degrees from face on, 0 to 70"`
}
type turnByArgs struct {
	Turn float64 `json:"turn" about:"degrees further about the upright"`
	Tilt float64 `json:"tilt" about:"degrees further from face on"`
}
type apartArgs struct {
	By float64 `json:"by" about:"0: together, 1: as far as it goes"`
}
type layersArgs struct {
	Show  string `json:"show" about:"which layers" oneOf:"all|one|up-to"`
	Layer int    `json:"layer,omitempty" about:"which one, 1 is lowest"`
}
type reliefSizeArgs struct {
	Size string `json:"size" about:"fitted, or as large as it will be" oneOf:"fit|real"`
}
type cardLookArgs struct {
	Card string `json:"card" about:"whether card shows its texture" oneOf:"plain|textured"`
}

func reliefCommands() []Command {
	r := func(e *Editor) *Relief { return &e.session.Relief }
	return []Command{
		command("turnRelief", "Turn the preview", func(e *Editor, a turnReliefArgs) (any, error) {
			r(e).look(a.Turn, a.Tilt)
			return nil, nil
		}, Key{"J", "Look from face on", `{"turn":0,"tilt":0}`}),
		command("turnReliefBy", "Turn the preview a little", func(e *Editor, a turnByArgs) (any, error) {
			r(e).look(r(e).Turn+a.Turn, r(e).Tilt+a.Tilt)
			return nil, nil
		}, Key{"Alt+Shift+ArrowLeft", "Turn the preview to the left", `{"turn":-10,"tilt":0}`},
			Key{"Alt+Shift+ArrowRight", "Turn the preview to the right", `{"turn":10,"tilt":0}`},
			Key{"Alt+Shift+ArrowUp", "Tilt the preview away", `{"turn":0,"tilt":10}`},
			Key{"Alt+Shift+ArrowDown", "Tilt the preview back", `{"turn":0,"tilt":-10}`}),
		command("pullApart", "Pull the layers apart", func(e *Editor, a apartArgs) (any, error) {
			if a.By < 0 || a.By > 1 {
				return nil, errors.New("layers are pulled apart by 0 to 1")
			}
			r(e).Apart = a.By
			return nil, nil
		}, Key{"X", "Pull the layers apart", `{"by":1}`}, Key{"Shift+X", "Put the layers together", `{"by":0}`}),
		command("showLayers", "Show all layers or some", func(e *Editor, a layersArgs) (any, error) {
			if a.Layer < 0 || a.Layer > 10000 {
				return nil, fmt.Errorf("there is no layer %d", a.Layer)
			}
			r(e).Show = Shown(a.Show)
			if a.Layer > 0 {
				r(e).Layer = a.Layer
			}
			return nil, nil
		}, Key{"A", "Show all layers", `{"show":"all"}`}, Key{"S", "Show one layer", `{"show":"one"}`}, Key{"Shift+S", "Show the layers up to one", `{"show":"up-to"}`}),
		command("nextLayer", "The next layer", func(e *Editor, a stepArgs) (any, error) {
			by := max(-10000, min(a.By, 10000))
			r(e).Layer = max(1, min(r(e).Layer+by, 10000))
			return nil, nil
		}, Key{"K", "The layer above", `{"by":1}`}, Key{"Shift+K", "The layer below", `{"by":-1}`}),
		command("showSize", "Size of the preview", func(e *Editor, a reliefSizeArgs) (any, error) {
			if Fit(a.Size) == RealSize && e.session.PxPerMm == 0 {
				return nil, errors.New("measure this glass first, with a bank card or a ruler; then real size can be shown")
			}
			r(e).Size = Fit(a.Size)
			return nil, nil
		}, Key{"Z", "Real size", `{"size":"real"}`}, Key{"Shift+Z", "Fit the preview", `{"size":"fit"}`}),
		command("cardLook", "Texture of the card", func(e *Editor, a cardLookArgs) (any, error) {
			r(e).Card = a.Card
			return nil, nil
		}),
	}
}

// look turns and tilts as far as that goes.
func (r *Relief) look(turn, tilt float64) {
	r.Turn = math.Remainder(turn, 360)
	r.Tilt = max(0, min(tilt, MaxTilt))
}
