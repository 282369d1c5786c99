// Package examples holds the demo jobs as documents: an invented shop, invented
// people and cars of no real make.
package examples

import "embed"

// Files are the documents, one a job.
//
//go:embed *.json
var Files embed.FS

// Shop is the invented shop.
const Shop = "Thornhythe Coachworks"
