package demo

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"sync"

	"jounce/internal/job"
	"jounce/internal/photo"
)

// Picture is a file that stands with a job: an entry of its record with its
// content.
type Picture struct {
	Job   string
	Photo job.Photo
	JPEG  []byte
}

// Pictures are the invented pictures of the jobs: the saloon in the yard, from
// its left, as it came, with its marks set. They are painted once, which takes
// about a second.
var Pictures = sync.OnceValues(func() ([]Picture, error) {
	b, err := photo.Write(photo.Sample())
	if err != nil {
		return nil, fmt.Errorf("the invented picture: %w", err)
	}
	sum, m := sha256.Sum256(b), photo.SampleMarks()
	at := func(p *photo.Point) string { return fmt.Sprintf("%.1f, %.1f", p.X, p.Y) }
	return []Picture{{Job: "0412", JPEG: b, Photo: job.Photo{ID: "h1", Name: "In the yard, as it came", File: hex.EncodeToString(sum[:]), View: "left side", Stands: "as received",
		Taken: "2026-03-14T09:05", FrontHub: at(m.FrontHub), RearHub: at(m.RearHub), FrontGround: at(m.FrontGround), RearGround: at(m.RearGround),
		Note: "Painted by the program: no car, no yard."}}}, nil
})

// Hang puts the pictures of a job into its record.
func Hang(rec *job.Job) ([]Picture, error) {
	all, err := Pictures()
	if err != nil {
		return nil, err
	}
	var out []Picture
	for _, p := range all {
		if p.Job == rec.ID {
			rec.Photos = append(rec.Photos, p.Photo)
			out = append(out, p)
		}
	}
	return out, nil
}
