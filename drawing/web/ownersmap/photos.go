package ownersmap

import (
	"encoding/base64"
	"fmt"

	"oxturn/layout"
	"oxturn/layout/job"
)

// photos lays what was photographed before it was covered under the lines, in the floor's
// plane, to be shown one at a time.
func (d *pen) photos(photos []*job.Photo) error {
	for i, ph := range photos {
		flat, err := ph.Flat()
		if err != nil {
			return fmt.Errorf("photo %q cannot be unpacked: %w", ph.File, err)
		}
		if flat == nil {
			continue
		}
		b := flat.Bounds
		d.add(`<image class="photo" data-photo="%d" x="%.1f" y="%.1f" width="%.1f" height="%.1f" `+
			`preserveAspectRatio="none" href="data:image/jpeg;base64,%s"/>`, i, b.Min.X, -b.Max.Y, b.W(), b.H(),
			base64.StdEncoding.EncodeToString(flat.JPEG))
	}
	return nil
}

// photosShown are the photos of a room by their names, with how well each tells places.
func photosShown(p *layout.Plan, r *layout.Room, photos []*job.Photo) (out []photoShown) {
	f := p.Job.Figures()
	for i, ph := range photos {
		if flat, err := ph.Flat(); err != nil || flat == nil {
			continue
		}
		x := photoShown{Index: i, Name: f.Textf("Photo %d", i+1), Words: ph.Name() + ", SHA-256 " + ph.ShortSum()}
		if most := r.WorstIn(ph); most > 0 {
			x.Words += f.Textf(": a place of cable read off it is within %s", f.Spacing(most))
		}
		out = append(out, x)
	}
	return out
}
