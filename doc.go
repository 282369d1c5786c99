// Package jounce is the map of the house. It holds nothing else.
//
// Three things are kept apart: the record (what somebody typed or measured),
// physics (what nature does with complete inputs) and judgement (what that means
// for the car). They meet in internal/study alone.
//
//	quantity source num/*        foundations: values with units, citations, methods
//	gas spring tyre stance leak  engines: pure functions in SI, every intermediate returned
//	internal/job catalog         the record of one conversion; what the shop made its own
//	internal/finding             claim, number, limit, verdict: the common tongue
//	internal/study               record to inputs and gaps, engines, findings
//	internal/sum                 one question without a job
//	internal/draw figure         scenes in millimetres, and the pictures made of them
//	internal/plate press report  what a study found as pictures and papers
//	internal/store               revisions, attachments, backup
//	internal/web                 pages
//	internal/cli cmd/jounce      commands; the clock, the environment and the log
//	internal/demo examples       invented jobs
//
// rooms_test.go holds who may import whom. docs/ARCHITECTURE.md names the files
// and follows one reading from a hand to a paper.
package jounce
